import { Check, Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { Place } from '../drawing/drawn-node.js';
import type { InformantKind } from '../plan/error-rates.js';
import type { SeenPart } from './look.js';

/**
 * A part that somebody looked at, about a ticket or on a visit. It is never changed, save for `ticketId`: merging moves it,
 * and the log says so; and once for the log entry of its ticket or its visit that withdraws it.
 */
@Entity('looks')
@Check('looks_check', 'num_nonnulls(ticket_id, visit_id) = 1')
@Index(['firmId', 'ticketId'])
@Index(['firmId', 'visitId', 'lookedAt', 'id'])
@ForeignKey('Ticket', ['firmId', 'ticketId'], ['firmId', 'id'])
@ForeignKey('Visit', ['firmId', 'visitId'], ['firmId', 'id'])
@ForeignKey('TicketEntry', ['firmId', 'entryId'], ['firmId', 'id'])
@ForeignKey('TicketEntry', ['firmId', 'withdrawalId'], ['firmId', 'id'])
@ForeignKey('VisitWithdrawal', ['firmId', 'visitWithdrawalId'], ['firmId', 'id'])
export class Look extends FirmRow {
  @Column('uuid', { nullable: true })
  ticketId!: string | null;

  @Column('uuid', { nullable: true })
  visitId!: string | null;

  /** The log entry that brought it: a look, an answer or a finding; null on a visit. */
  @Column('uuid', { nullable: true })
  entryId!: string | null;

  @Column('jsonb')
  place!: Place;

  @Column('text')
  part!: string;

  /** Of a setting for each group of stations. */
  @Column('text', { nullable: true })
  groupName!: string | null;

  @Column('text')
  seen!: SeenPart['seen'];

  @Column('text')
  saidBy!: string;

  @Column('text')
  saidByKind!: InformantKind;

  @Column('timestamptz')
  lookedAt!: Date;

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
