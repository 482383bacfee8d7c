import { Column, Entity, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION } from '../database/firm-row.js';

/** What a firm pays for work, ways and parts, in minor units of one currency; one row a firm. */
@Entity('firm_prices')
export class FirmPrices {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  @Column('text')
  currency!: string;

  @Column('double precision')
  hourMinor!: number;

  @Column('double precision')
  travelHourMinor!: number;

  @Column('jsonb')
  parts!: { name: string; minor: number }[];

  @Column('integer')
  version!: number;
}
