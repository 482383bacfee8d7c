import { Check, Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { RequestReading } from '../locator/index.js';
import type { InformantKind } from '../plan/error-rates.js';
import type { EnteredLoopCore, ReadingKind } from './entered-reading.js';

/**
 * A number that somebody read off a meter, about a ticket or on a visit. It is never changed, save for `ticketId`: merging
 * moves it, and the log says so; and once for the log entry of its ticket or its visit that withdraws it.
 */
@Entity('readings')
@Check('readings_check', 'num_nonnulls(ticket_id, visit_id) = 1')
@Index(['firmId', 'ticketId'])
@Index(['firmId', 'visitId', 'takenAt', 'id'])
@ForeignKey('Ticket', ['firmId', 'ticketId'], ['firmId', 'id'])
@ForeignKey('Visit', ['firmId', 'visitId'], ['firmId', 'id'])
@ForeignKey('TicketEntry', ['firmId', 'entryId'], ['firmId', 'id'])
@ForeignKey('TicketEntry', ['firmId', 'withdrawalId'], ['firmId', 'id'])
@ForeignKey('VisitWithdrawal', ['firmId', 'visitWithdrawalId'], ['firmId', 'id'])
export class Reading extends FirmRow {
  @Column('uuid', { nullable: true })
  ticketId!: string | null;

  @Column('uuid', { nullable: true })
  visitId!: string | null;

  /** The log entry that brought it; null on a visit. */
  @Column('uuid', { nullable: true })
  entryId!: string | null;

  @Column('text')
  kind!: ReadingKind;

  @Column('text', { nullable: true })
  trunk!: string | null;

  @Column('text', { nullable: true })
  node!: string | null;

  /** Where, in words. */
  @Column('text', { nullable: true })
  place!: string | null;

  /** Of a loop: which core was measured against return. */
  @Column('text', { nullable: true })
  core!: EnteredLoopCore | null;

  /** The number as it was typed; null where it came as a number. */
  @Column('text', { nullable: true })
  entered!: string | null;

  /** Null of a test that only passes or fails. */
  @Column('double precision', { nullable: true })
  value!: number | null;

  @Column('text', { nullable: true })
  unit!: string | null;

  /** Standard uncertainty, in the same unit. */
  @Column('double precision', { nullable: true })
  uncertainty!: number | null;

  /** Where it was sent as the locator takes it. */
  @Column('jsonb', { nullable: true })
  reading!: RequestReading | null;

  @Column('text')
  takenBy!: string;

  @Column('text', { default: 'technician' })
  takenByKind!: InformantKind;

  @Column('timestamptz')
  takenAt!: Date;

  @Column('timestamptz')
  recordedAt!: Date;

  /** Which period between mendings of its ticket it belongs to; null on a visit, which may be about several tickets. */
  @Column('integer', { nullable: true })
  period!: number | null;

  @Column('text', { nullable: true })
  note!: string | null;

  @Column('uuid', { nullable: true })
  withdrawalId!: string | null;

  /** The same in the log of its visit. */
  @Column('uuid', { nullable: true })
  visitWithdrawalId!: string | null;
}
