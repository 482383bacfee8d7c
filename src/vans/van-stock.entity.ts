import { Column, Entity, ForeignKey } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { VanPart } from './van-parts.js';

/** What a technician's van carries; its id is the person's. */
@Entity('van_stocks')
@ForeignKey('Person', ['firmId', 'id'], ['firmId', 'id'])
export class VanStock extends FirmRow {
  @Column('jsonb')
  parts!: VanPart[];

  @Column('integer')
  version!: number;

  /** When somebody said so last: what was used before is in it already. */
  @Column('timestamptz', { default: () => 'now()' })
  countedAt!: Date;
}
