import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { PredictedPlace } from './place-chances.js';

/** Where a ticket's trouble was thought to lie when somebody was sent. The database refuses to change or delete it. */
@Entity('predictions')
@Index(['firmId', 'ticketId'])
@ForeignKey('Ticket', ['firmId', 'ticketId'], ['firmId', 'id'])
export class KeptPrediction extends FirmRow {
  @Column('uuid')
  ticketId!: string;

  /** The state that somebody was sent by; or `finding`, where something was found and nobody had been sent. */
  @Column('text')
  occasion!: string;

  @Column('timestamptz')
  madeAt!: Date;

  /** Every place of the site, most probable first. */
  @Column('jsonb')
  places!: PredictedPlace[];
}
