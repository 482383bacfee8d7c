import { Column, Entity, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from '../database/firm-row.js';
import type { PlannedDayDto } from './day-plan.dto.js';

/** The plan of a day as it was made last. */
@Entity('day_plans')
export class KeptDayPlan {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  @PrimaryColumn('date')
  day!: string;

  @Column('jsonb')
  plan!: PlannedDayDto;

  @Column('timestamptz')
  madeAt!: Date;

  @Column('timestamptz', { nullable: true })
  acceptedAt!: Date | null;

  @Column('integer')
  version!: number;
}
