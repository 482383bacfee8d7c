import { Column, Entity, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { ClosedTime } from './closed-time.js';

/** Closed times under one name that contracts go by, such as a school's holidays. */
@Entity('closed_calendars')
@Index(['firmId', 'name', 'id'])
export class ClosedCalendar extends FirmRow {
  @Column('text')
  name!: string;

  @Column('jsonb')
  times!: ClosedTime[];

  @Column('integer')
  version!: number;

  @Column('timestamptz')
  createdAt!: Date;
}
