import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';

/** What is wanted of a promised visit in the plan of thirteen weeks, whoever asks for it. */
@Entity('quarter_wishes')
@Index(
  'quarter_wishes_visit_idx',
  ['firmId', 'quarter', 'contractId', 'siteId', 'year', 'ordinal'],
  { unique: true },
)
@ForeignKey('Contract', ['firmId', 'contractId'], ['firmId', 'id'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
@ForeignKey('Person', ['firmId', 'changedById'], ['firmId', 'id'])
export class HeldQuarterWish extends FirmRow {
  /** The first day of the thirteen weeks. */
  @Column('date')
  quarter!: string;

  @Column('uuid')
  contractId!: string;

  @Column('uuid')
  siteId!: string;

  @Column('integer')
  year!: number;

  @Column('integer')
  ordinal!: number;

  @Column('date', { nullable: true })
  on!: string | null;

  @Column('jsonb')
  notOn!: string[];

  @Column('uuid', { nullable: true })
  pinnedTo!: string | null;

  @Column('jsonb')
  notBy!: string[];

  @Column('jsonb')
  skills!: string[];

  @Column('boolean')
  isLeft!: boolean;

  @Column('text', { nullable: true })
  reason!: string | null;

  @Column('uuid')
  changedById!: string;

  @Column('timestamptz')
  changedAt!: Date;

  @Column('integer')
  version!: number;
}
