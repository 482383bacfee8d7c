import { Column, Entity, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from '../database/firm-row.js';

/** The way by road between two sites. */
export interface RoadBetween {
  siteIds: [string, string];
  km: number;
}

/** How a firm reckons ways and lengths; one row a firm. */
@Entity('planning_rules')
export class PlanningRules {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  @Column('double precision')
  detourFactor!: number;

  @Column('double precision')
  kmPerHour!: number;

  @Column('integer')
  minutesEachWay!: number;

  @Column('integer')
  upkeepMinutes!: number;

  @Column('integer')
  callOutMinutes!: number;

  @Column('integer')
  movedMinutes!: number;

  @Column('jsonb')
  roads!: RoadBetween[];

  @Column('integer')
  version!: number;
}
