import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { InformantKind, Outcome } from '../plan/error-rates.js';
import type { FunctionName } from '../plan/functions.js';
import type { HowReported } from './observation.js';

/**
 * One thing that somebody heard or did not hear. It is never changed, save for `ticketId`: merging
 * and splitting move it, and the log says so; and once for the log entry that withdraws it.
 */
@Entity('observations')
@Index(['firmId', 'ticketId'])
@ForeignKey('TicketEntry', ['firmId', 'entryId'], ['firmId', 'id'])
@ForeignKey('TicketEntry', ['firmId', 'withdrawalId'], ['firmId', 'id'])
@ForeignKey('Ticket', ['firmId', 'ticketId'], ['firmId', 'id'])
export class Observation extends FirmRow {
  @Column('uuid')
  entryId!: string;

  @Column('uuid')
  ticketId!: string;

  @Column('text')
  trunk!: string;

  @Column('text')
  node!: string;

  @Column('text')
  function!: FunctionName;

  @Column('text')
  outcome!: Outcome;

  /** The node below which the cable was disconnected meanwhile; null: the trunk was whole. */
  @Column('text', { nullable: true })
  disconnectedBelow!: string | null;

  @Column('text')
  saidBy!: string;

  @Column('text')
  saidByKind!: InformantKind;

  @Column('text')
  how!: HowReported;

  @Column('timestamptz')
  observedAt!: Date;

  @Column('integer')
  period!: number;

  @Column('uuid', { nullable: true })
  withdrawalId!: string | null;
}
