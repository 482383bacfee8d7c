import { Column, Entity, ForeignKey, Index, Unique } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { TicketState } from './ticket-lifecycle.js';

/** A fault ticket: columns derived from its log, for finding and showing it. */
@Entity('tickets')
@Unique(['firmId', 'number'])
@Index(['firmId', 'siteId', 'state'])
@Index(['firmId', 'closedAt'])
@Index(['firmId', 'openedAt'])
@Index(['firmId', 'mergedInto'])
@Index(['firmId', 'state', 'number'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
@ForeignKey(() => Ticket, ['firmId', 'mergedInto'], ['firmId', 'id'])
export class Ticket extends FirmRow {
  /** What people call it by; counts up within the firm. */
  @Column('integer')
  number!: number;

  @Column('uuid')
  siteId!: string;

  /** The as-built record that was true when it was opened. */
  @Column('integer')
  asBuiltVersion!: number;

  @Column('text')
  state!: TicketState;

  @Column('text')
  openedBy!: string;

  @Column('timestamptz')
  openedAt!: Date;

  @Column('timestamptz', { nullable: true })
  closedAt!: Date | null;

  @Column('uuid', { nullable: true })
  mergedInto!: string | null;

  /** A temporary mending wants a visit by this day. */
  @Column('date', { nullable: true })
  followUpDueOn!: string | null;

  /** Why it cannot wait, as was said last; null where nobody said so. */
  @Column('text', { nullable: true })
  urgentReason!: string | null;

  /** Each mending ends a period: what was seen before it says nothing about what comes after. */
  @Column('integer')
  period!: number;

  @Column('integer')
  version!: number;
}
