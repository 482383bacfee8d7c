import { Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from '../database/firm-row.js';
import { Visit } from './visit.entity.js';

/** A ticket that a visit is for. */
@Entity('visit_tickets')
@Index(['firmId', 'ticketId'])
@ForeignKey(() => Visit, ['firmId', 'visitId'], ['firmId', 'id'])
@ForeignKey('Ticket', ['firmId', 'ticketId'], ['firmId', 'id'])
export class VisitTicket {
  @PrimaryColumn('uuid', {
    name: 'firm_id',
    default: FIRM_OF_TRANSACTION,
  })
  firmId!: string;

  @PrimaryColumn('uuid')
  visitId!: string;

  @PrimaryColumn('uuid')
  ticketId!: string;
}
