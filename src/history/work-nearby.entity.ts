import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { InformantKind } from '../plan/error-rates.js';

/** What others did near parts of a site. It is never changed, but for its one withdrawal. */
@Entity('works_nearby')
@Index(['firmId', 'siteId', 'on', 'id'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
export class WorkNearby extends FirmRow {
  @Column('uuid')
  siteId!: string;

  /** Nodes near which they worked. */
  @Column('jsonb')
  rooms!: { trunk: string; node: string }[];

  @Column('date')
  on!: string;

  @Column('text')
  byWhom!: string;

  @Column('text', { nullable: true })
  note!: string | null;

  @Column('text')
  saidBy!: string;

  @Column('text')
  saidByKind!: InformantKind;

  @Column('timestamptz')
  recordedAt!: Date;

  @Column('text', { nullable: true })
  withdrawnBy!: string | null;

  @Column('timestamptz', { nullable: true })
  withdrawnAt!: Date | null;

  @Column('text', { nullable: true })
  withdrawnBecause!: string | null;
}
