import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { InformantKind } from '../plan/error-rates.js';
import type { EntryDetails, EntryKind } from './ticket-log.js';
import { Ticket } from './ticket.entity.js';

/** One entry of a ticket's log. The database refuses to change or delete it. */
@Entity('ticket_entries')
@Index(['firmId', 'ticketId', 'id'])
@Index(['firmId', 'kind', 'id'])
@ForeignKey(() => Ticket, ['firmId', 'ticketId'], ['firmId', 'id'])
export class TicketEntry extends FirmRow {
  @Column('uuid')
  ticketId!: string;

  @Column('text')
  kind!: EntryKind;

  @Column('text')
  saidBy!: string;

  @Column('text', { nullable: true })
  saidByKind!: InformantKind | null;

  @Column('timestamptz')
  happenedAt!: Date;

  @Column('timestamptz')
  recordedAt!: Date;

  @Column('jsonb')
  details!: EntryDetails;
}
