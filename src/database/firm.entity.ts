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

  /** By which clients ring it. */
  @Column('text', { nullable: true })
  phone!: string | null;

  @Column('integer', { default: 1 })
  version!: number;

  /** Tickets are numbered within the firm. */
  @Column('integer', { default: 0 })
  lastTicketNumber!: number;

  @Column('timestamptz')
  createdAt!: Date;
}
