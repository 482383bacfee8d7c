import { Column, Entity, Index } from 'typeorm';
import { FirmRow } from './firm-row.js';

/** A POST that brought its own id, and what it was answered: its repeat gets the same answer. */
@Entity('received_requests')
@Index(['firmId', 'receivedAt'])
export class ReceivedRequest extends FirmRow {
  @Column('text')
  route!: string;

  /** Who sent it; null of a process of an earlier version. */
  @Column('text', { nullable: true })
  sender!: string | null;

  @Column('text')
  contentHash!: string;

  /** Null only inside the transaction that is answering it. JSON as text keeps the members' order. */
  @Column('text', { nullable: true })
  answer!: string | null;

  /** False while something is still to be worked out for the answer, after the commit. */
  @Column('boolean', { default: true })
  isFinished!: boolean;

  @Column('timestamptz')
  receivedAt!: Date;
}
