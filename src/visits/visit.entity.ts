import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { VisitKind, VisitState } from './visit-lifecycle.js';

/** Somebody's going to a site on a day, for its upkeep, for tickets, or for both. */
@Entity('visits')
@Index(['firmId', 'on', 'id'])
@Index(['firmId', 'siteId', 'on'])
@Index(['firmId', 'technicianId', 'on'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
@ForeignKey('Person', ['firmId', 'technicianId'], ['firmId', 'id'])
export class Visit extends FirmRow {
  @Column('uuid')
  siteId!: string;

  @Column('text')
  kind!: VisitKind;

  /** The day, as the site's calendar has it. */
  @Column('date')
  on!: string;

  /** By the site's clock, "08:30"; null: some time of the day. */
  @Column('text', { nullable: true })
  fromTime!: string | null;

  @Column('text', { nullable: true })
  untilTime!: string | null;

  /** Null until somebody is named. */
  @Column('uuid', { nullable: true })
  technicianId!: string | null;

  @Column('text')
  purpose!: string;

  @Column('boolean')
  upkeep!: boolean;

  @Column('text')
  state!: VisitState;

  @Column('text', { nullable: true })
  workDone!: string | null;

  @Column('timestamptz', { nullable: true })
  startedAt!: Date | null;

  @Column('timestamptz', { nullable: true })
  finishedAt!: Date | null;

  /** There and back, as it was said when it was done. */
  @Column('integer', { nullable: true })
  travelMinutes!: number | null;

  @Column('integer')
  version!: number;

  @Column('timestamptz')
  createdAt!: Date;
}
