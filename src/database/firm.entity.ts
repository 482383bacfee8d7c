import { Column, Entity, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from './firm-row.js';

@Entity('firms')
export class Firm {
  @PrimaryColumn('uuid', {
    name: 'firm_id',
    default: FIRM_OF_TRANSACTION,
  })
  firmId!: string;

  @Column('text')
  name!: string;

  /** Tickets are numbered within the firm. */
  @Column('integer', { default: 0 })
  lastTicketNumber!: number;

  @Column('timestamptz')
  createdAt!: Date;
}
