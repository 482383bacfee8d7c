import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Person } from '../people/person.entity.js';

/** Somebody who is signed in. Ending a session deletes it. */
@Entity('sessions')
@Index(['secretHash'], { unique: true })
@Index(['firmId', 'personId'])
@ForeignKey(() => Person, ['firmId', 'personId'], ['firmId', 'id'])
export class Session extends FirmRow {
  @Column('text')
  secretHash!: string;

  @Column('uuid')
  personId!: string;

  @Column('timestamptz')
  createdAt!: Date;

  @Column('timestamptz')
  lastSeenAt!: Date;

  /** However much it is used. */
  @Column('timestamptz')
  endsAt!: Date;

  @Column('text')
  address!: string;

  @Column('text')
  userAgent!: string;
}
