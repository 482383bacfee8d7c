import { Column, Entity, ForeignKey, Index, Unique } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Person } from '../people/person.entity.js';

export type LinkKind = 'invitation' | 'reset';

/** Lets whoever got the mail choose a password, once. Using a link deletes it. */
@Entity('mailed_links')
@Index(['secretHash'], { unique: true })
@Unique(['firmId', 'personId', 'kind'])
@ForeignKey(() => Person, ['firmId', 'personId'], ['firmId', 'id'])
export class MailedLink extends FirmRow {
  @Column('text')
  secretHash!: string;

  @Column('uuid')
  personId!: string;

  @Column('text', { default: 'reset' })
  kind!: LinkKind;

  @Column('timestamptz')
  endsAt!: Date;
}
