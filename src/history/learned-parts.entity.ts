import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import { FIRM_OF_TRANSACTION, FirmRow } from '../database/firm-row.js';
import type { ClassAtSite } from './class-at-site.js';
import type { LookCounts, Repair } from './ticket-experience.js';

/** Marks what has changed since it was learned: a ticket of a site, or the drawing of the site. The database writes them by itself. */
@Entity('to_learn')
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
@ForeignKey('Ticket', ['firmId', 'ticketId'], ['firmId', 'id'])
export class ToLearn {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  @PrimaryColumn('uuid')
  siteId!: string;

  @PrimaryColumn('uuid')
  id!: string;

  @Column('uuid', { nullable: true })
  ticketId!: string | null;
}

/** What one closed ticket teaches; its id is the ticket's. See `TicketExperience`. */
@Entity('learned_tickets')
@Index(['firmId', 'siteId'])
@Index(['firmId', 'closedAt'])
@ForeignKey('Ticket', ['firmId', 'id'], ['firmId', 'id'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
export class LearnedTicket extends FirmRow {
  @Column('uuid')
  siteId!: string;

  @Column('timestamptz')
  closedAt!: Date;

  @Column('integer')
  mended!: number;

  @Column('jsonb')
  repairs!: Repair[];

  @Column('boolean', { nullable: true })
  isFound!: boolean | null;

  @Column('double precision', { nullable: true })
  quiet!: number | null;

  @Column('jsonb', { nullable: true })
  looks!: LookCounts | null;
}

/** What one site says of one class of components. See `ClassAtSite`. */
@Entity('learned_classes')
@Index(['firmId', 'siteId'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
export class LearnedClassAtSite {
  @PrimaryColumn('uuid', { name: 'firm_id', default: FIRM_OF_TRANSACTION })
  firmId!: string;

  @PrimaryColumn('text')
  className!: string;

  @PrimaryColumn('uuid')
  siteId!: string;

  @Column('text')
  rateGroup!: ClassAtSite['group'];

  @Column('jsonb')
  exposures!: ClassAtSite['exposures'];

  @Column('jsonb')
  repaired!: ClassAtSite['repaired'];
}
