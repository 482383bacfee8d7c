import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import { AsBuiltVersion } from './as-built-version.entity.js';
import { SiteRow } from './site-row.entity.js';

@Entity('as_built_trunks')
@ForeignKey(
  () => AsBuiltVersion,
  ['firmId', 'siteId', 'sinceVersion'],
  ['firmId', 'siteId', 'number'],
)
@Index(['firmId', 'siteId', 'trunk'], { unique: true, where: '(until_version IS NULL)' })
export class AsBuiltTrunk extends SiteRow {
  @PrimaryColumn('text')
  trunk!: string;

  @PrimaryColumn('integer')
  sinceVersion!: number;

  /** The first version that it is no longer part of; null while it is current. */
  @Column('integer', { nullable: true })
  untilVersion!: number | null;

  @Column('text')
  name!: string;

  @Column('text', { nullable: true })
  port!: string | null;
}
