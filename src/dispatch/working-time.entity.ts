import { Column, Entity, ForeignKey } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';

/** Hours of a day of the week, by the wall clock where somebody works. */
export interface WorkingHours {
  /** ISO 8601: Monday is 1, Sunday 7. */
  weekday: number;
  /** "07:30" */
  from: string;
  /** "16:00" */
  until: string;
}

/** When somebody works, what for, and where their days begin; its id is the person's. */
@Entity('working_times')
@ForeignKey('Person', ['firmId', 'id'], ['firmId', 'id'])
export class WorkingTime extends FirmRow {
  @Column('jsonb')
  hours!: WorkingHours[];

  /** Days on which they are not there. */
  @Column('jsonb')
  daysOff!: string[];

  @Column('jsonb')
  skills!: string[];

  @Column('double precision', { nullable: true })
  startLatitude!: number | null;

  @Column('double precision', { nullable: true })
  startLongitude!: number | null;

  /** Whether the way back belongs to the day. */
  @Column('boolean')
  endsAtStart!: boolean;

  @Column('integer')
  version!: number;
}
