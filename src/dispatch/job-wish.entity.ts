import { Column, Entity } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';

/** What people want of a job, whatever a plan finds best; its id is the visit's or the ticket's. */
@Entity('job_wishes')
export class JobWish extends FirmRow {
  /** Who does it. */
  @Column('uuid', { nullable: true })
  pinnedTo!: string | null;

  /** Who does not. */
  @Column('jsonb')
  notBy!: string[];

  @Column('integer', { nullable: true })
  minutes!: number | null;

  @Column('jsonb')
  skills!: string[];

  /** Why, in the words of whoever wants it. */
  @Column('text', { nullable: true })
  reason!: string | null;

  @Column('integer')
  version!: number;
}
