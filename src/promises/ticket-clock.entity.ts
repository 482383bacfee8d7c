import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { TroubleClass } from '../contracts/class-of-trouble.js';
import { Contract } from '../contracts/contract.entity.js';
import type { KeptPromise, ToldPromises } from './kept-clock.js';
import type { PromiseState } from './ticket-clock.js';
import type { PromiseKind } from '../contracts/contract-kinds.js';

/** A ticket's clock as it was reckoned last; its id is the ticket's. */
@Entity('ticket_clocks')
@Index(['firmId', 'contractId'])
@ForeignKey('Ticket', ['firmId', 'id'], ['firmId', 'id'])
@ForeignKey(() => Contract, ['firmId', 'contractId'], ['firmId', 'id'])
export class KeptTicketClock extends FirmRow {
  /** When what it depends on was read, by the clock of the database. */
  @Column('timestamptz')
  readAt!: Date;

  @Column('uuid', { nullable: true })
  contractId!: string | null;

  @Column('text')
  troubleClass!: TroubleClass;

  /** What is due next; null: nothing is, or nothing was promised. */
  @Column('text', { nullable: true })
  nextPromise!: PromiseKind | null;

  @Column('text', { nullable: true })
  nextState!: PromiseState | null;

  /** Null while it is paused too. */
  @Column('timestamptz', { nullable: true })
  dueAt!: Date | null;

  /** When something is to be told of it, if nothing happens before. */
  @Column('timestamptz', { nullable: true })
  lookAt!: Date | null;

  @Column('jsonb')
  kept!: KeptPromise[];

  /** What was told already, so that it is told once. */
  @Column('jsonb')
  told!: ToldPromises;
}
