import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { InformantKind, RequestReading } from '../locator/index.js';

/**
 * A number that somebody read off a meter, with the id of the log entry that brought it. It is never changed, save for
 * `ticketId`: merging moves it, and the log says so; and once for the log entry that withdraws it.
 */
@Entity('ticket_readings')
@Index(['firmId', 'ticketId'])
@ForeignKey('TicketEntry', ['firmId', 'id'], ['firmId', 'id'])
@ForeignKey('TicketEntry', ['firmId', 'withdrawalId'], ['firmId', 'id'])
@ForeignKey('Ticket', ['firmId', 'ticketId'], ['firmId', 'id'])
export class TicketReading extends FirmRow {
  @Column('uuid')
  ticketId!: string;

  /** As the locator takes it. */
  @Column('jsonb')
  reading!: RequestReading;

  @Column('text')
  takenBy!: string;

  @Column('text')
  takenByKind!: InformantKind;

  @Column('timestamptz')
  takenAt!: Date;

  @Column('timestamptz')
  recordedAt!: Date;

  @Column('integer')
  period!: number;

  @Column('uuid', { nullable: true })
  withdrawalId!: string | null;
}
