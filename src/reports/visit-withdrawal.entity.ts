import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { WithdrawnOnVisit } from './withdrawal.js';
import type { InformantKind } from '../plan/error-rates.js';

/** Who took back what was entered on a visit, when and why. The database refuses to change or delete it. */
@Entity('visit_withdrawals')
@Index(['firmId', 'visitId', 'recordedAt', 'id'])
@ForeignKey('Visit', ['firmId', 'visitId'], ['firmId', 'id'])
export class VisitWithdrawal extends FirmRow {
  @Column('uuid')
  visitId!: string;

  @Column('text')
  what!: WithdrawnOnVisit;

  @Column('uuid')
  withdrawnId!: string;

  @Column('text')
  saidBy!: string;

  @Column('text')
  saidByKind!: InformantKind;

  @Column('timestamptz')
  happenedAt!: Date;

  @Column('timestamptz')
  recordedAt!: Date;

  @Column('text')
  reason!: string;
}
