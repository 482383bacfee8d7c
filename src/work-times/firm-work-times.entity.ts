import { Column, Entity, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from '../database/firm-row.js';
import type { WorkTimeName } from './work-times.js';

/** How long work takes as the firm says; one row a firm. */
@Entity('work_times')
export class FirmWorkTimes {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  /** Only what was said. */
  @Column('jsonb')
  minutes!: Partial<Record<WorkTimeName, number>>;

  @Column('integer')
  version!: number;
}
