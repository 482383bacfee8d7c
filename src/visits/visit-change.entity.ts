import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Visit } from './visit.entity.js';

/** A visit was moved to another time, or a ticket no longer wants it. The database refuses to change or delete it. */
@Entity('visit_changes')
@Index(['firmId', 'visitId', 'id'])
@ForeignKey(() => Visit, ['firmId', 'visitId'], ['firmId', 'id'])
@ForeignKey('Ticket', ['firmId', 'ticketId'], ['firmId', 'id'])
export class VisitChange extends FirmRow {
  @Column('uuid')
  visitId!: string;

  @Column('timestamptz')
  changedAt!: Date;

  @Column('text')
  reason!: string;

  @Column('date')
  wasOn!: string;

  @Column('text', { nullable: true })
  wasFromTime!: string | null;

  @Column('text', { nullable: true })
  wasUntilTime!: string | null;

  @Column('date')
  on!: string;

  @Column('text', { nullable: true })
  fromTime!: string | null;

  @Column('text', { nullable: true })
  untilTime!: string | null;

  /** The ticket that no longer wants it. */
  @Column('uuid', { nullable: true })
  ticketId!: string | null;

  /** The version that the visit had after it. */
  @Column('integer')
  visitVersion!: number;
}
