import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { ReadingKind } from './reading-kinds.js';

/** A number read off a meter on a visit. The database refuses to change or delete it. */
@Entity('visit_readings')
@Index(['firmId', 'visitId', 'takenAt', 'id'])
@ForeignKey('Visit', ['firmId', 'visitId'], ['firmId', 'id'])
export class VisitReading extends FirmRow {
  @Column('uuid')
  visitId!: string;

  @Column('text')
  kind!: ReadingKind;

  @Column('text', { nullable: true })
  trunk!: string | null;

  @Column('text', { nullable: true })
  node!: string | null;

  /** Where, in words. */
  @Column('text', { nullable: true })
  place!: string | null;

  /** The number as it was typed. */
  @Column('text')
  entered!: string;

  @Column('double precision')
  value!: number;

  @Column('text')
  unit!: string;

  /** Standard uncertainty, in the same unit. */
  @Column('double precision', { nullable: true })
  uncertainty!: number | null;

  @Column('timestamptz')
  takenAt!: Date;

  @Column('text')
  takenBy!: string;

  @Column('timestamptz')
  recordedAt!: Date;

  @Column('text', { nullable: true })
  note!: string | null;
}
