import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { ContractKind, Coverage, Promised, VisitHours } from './contract-kinds.js';

/** What a firm promised a client for some sites and a time, and for how much. */
@Entity('contracts')
@Index(['firmId', 'from', 'id'])
@Index(['firmId', 'clientId'])
@Index(['firmId', 'renewedFrom'], { unique: true })
@ForeignKey('Client', ['firmId', 'clientId'], ['firmId', 'id'])
@ForeignKey(() => Contract, ['firmId', 'renewedFrom'], ['firmId', 'id'])
export class Contract extends FirmRow {
  @Column('text')
  title!: string;

  @Column('uuid')
  clientId!: string;

  /** The first day, by each site's calendar. */
  @Column('date')
  from!: string;

  /** The day after the last. */
  @Column('date')
  until!: string;

  @Column('text')
  kind!: ContractKind;

  @Column('integer')
  visitsPerYear!: number;

  @Column('jsonb', { nullable: true })
  visitRhythm!: { everyMonths: number; onDay: number } | null;

  @Column('jsonb')
  visitHours!: VisitHours;

  /** Null: all are. */
  @Column('integer', { nullable: true })
  callOutsPerYear!: number | null;

  /** In minor units; a double holds them exactly to 2^53. */
  @Column('double precision')
  feeMinor!: number;

  @Column('text')
  currency!: string;

  @Column('jsonb')
  promises!: Promised[];

  @Column('jsonb')
  coverage!: Coverage;

  @Column('boolean')
  pausesForParts!: boolean;

  @Column('text', { nullable: true })
  exclusions!: string | null;

  @Column('integer', { nullable: true })
  noticeDays!: number | null;

  /** One contract follows another at most. */
  @Column('uuid', { nullable: true })
  renewedFrom!: string | null;

  @Column('integer')
  version!: number;

  @Column('timestamptz')
  createdAt!: Date;
}
