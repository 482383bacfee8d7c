import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Person } from '../people/person.entity.js';

/** Lets whoever got the mail choose a password, once. Using a link deletes it. */
@Entity('mailed_links')
@Index(['secretHash'], { unique: true })
@Index(['firmId', 'personId'])
@ForeignKey(() => Person, ['firmId', 'personId'], ['firmId', 'id'])
export class MailedLink extends FirmRow {
  @Column('text')
  secretHash!: string;

  @Column('uuid')
  personId!: string;

  @Column('timestamptz')
  endsAt!: Date;
}
