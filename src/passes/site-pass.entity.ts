import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Site } from '../sites/site.entity.js';

/** Opens one site to whoever holds its link. */
@Entity('site_passes')
@Index(['secretHash'], { unique: true })
@Index(['firmId', 'siteId'])
@ForeignKey(() => Site, ['firmId', 'siteId'], ['firmId', 'id'])
export class SitePass extends FirmRow {
  @Column('text')
  secretHash!: string;

  @Column('uuid')
  siteId!: string;

  @Column('timestamptz')
  createdAt!: Date;

  @Column('timestamptz', { nullable: true })
  endedAt!: Date | null;
}
