import { Check, Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';

/** A secret link by which a calendar program reads somebody's visits, or those to a site. */
@Entity('calendar_feeds')
@Index(['secretHash'], { unique: true })
@Check('calendar_feeds_check', '((technician_id IS NULL) <> (site_id IS NULL))')
@ForeignKey('Person', ['firmId', 'technicianId'], ['firmId', 'id'])
@ForeignKey('Person', ['firmId', 'madeById'], ['firmId', 'id'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
export class CalendarFeed extends FirmRow {
  @Column('text')
  secretHash!: string;

  /** Whose visits; null: those to a site. */
  @Column('uuid', { nullable: true })
  technicianId!: string | null;

  @Column('uuid', { nullable: true })
  siteId!: string | null;

  @Column('timestamptz')
  createdAt!: Date;

  /** Null: made before this was kept. */
  @Column('uuid', { nullable: true })
  madeById!: string | null;

  /** To some minutes. */
  @Column('timestamptz', { nullable: true })
  lastReadAt!: Date | null;

  @Column('timestamptz', { nullable: true })
  endedAt!: Date | null;
}
