import { Column, Entity, ForeignKey, Unique } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { VisitState } from './visit-lifecycle.js';
import { Visit } from './visit.entity.js';

/** One move of a visit, as it was made. The database refuses to change or delete it. */
@Entity('visit_moves')
@Unique(['firmId', 'visitId', 'visitVersion'])
@ForeignKey(() => Visit, ['firmId', 'visitId'], ['firmId', 'id'])
export class VisitMove extends FirmRow {
  @Column('uuid')
  visitId!: string;

  @Column('text')
  fromState!: VisitState;

  @Column('text')
  toState!: VisitState;

  @Column('text')
  movedBy!: string;

  @Column('timestamptz')
  movedAt!: Date;

  @Column('timestamptz')
  recordedAt!: Date;

  @Column('text', { nullable: true })
  reason!: string | null;

  @Column('text', { nullable: true })
  workDone!: string | null;

  /** The version that the visit had after it: the moves' order. */
  @Column('integer')
  visitVersion!: number;
}
