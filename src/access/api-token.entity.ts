import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Person } from '../people/person.entity.js';

/** Lets a program act as the person who made it, within its scopes. Revoking deletes it. */
@Entity('api_tokens')
@Index(['secretHash'], { unique: true })
@Index(['firmId', 'personId'])
@ForeignKey(() => Person, ['firmId', 'personId'], ['firmId', 'id'])
export class ApiToken extends FirmRow {
  @Column('text')
  secretHash!: string;

  @Column('uuid')
  personId!: string;

  @Column('text')
  name!: string;

  @Column('text', { array: true })
  scopes!: string[];

  @Column('timestamptz')
  createdAt!: Date;

  @Column('timestamptz', { nullable: true })
  lastUsedAt!: Date | null;

  @Column('timestamptz', { nullable: true })
  endsAt!: Date | null;
}
