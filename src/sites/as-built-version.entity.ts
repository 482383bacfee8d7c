import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';
import { Site } from './site.entity.js';
import { SiteRow } from './site-row.entity.js';

/** One version of a site's record: who, when and why, and the head-end as it then was. */
@Entity('as_built_versions')
@ForeignKey(() => Site, ['firmId', 'siteId'], ['firmId', 'id'])
export class AsBuiltVersion extends SiteRow {
  @PrimaryColumn('integer')
  number!: number;

  @Column('text')
  changedBy!: string;

  @Column('timestamptz')
  changedAt!: Date;

  @Column('text')
  reason!: string;

  @Column('text', { nullable: true })
  model!: string | null;

  @Column('text', { nullable: true })
  serial!: string | null;

  @Column('text', { nullable: true })
  place!: string | null;

  @Column('date', { nullable: true })
  installedOn!: string | null;

  @Column('double precision', { nullable: true })
  supplyVolts!: number | null;

  @Column('double precision', { nullable: true })
  supplyOhms!: number | null;

  @Column('double precision', { nullable: true })
  stationAmps!: number | null;

  @Column('double precision', { nullable: true })
  coreOhmsPerKm!: number | null;
}
