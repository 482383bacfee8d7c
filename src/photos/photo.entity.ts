import { Check, Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { PhotoFormat } from './photo-format.js';

/** A photo of a ticket or of a visit. The database lets nothing change but the picture’s going. */
@Entity('photos')
@Check('photos_check', 'num_nonnulls(ticket_id, visit_id) = 1')
@Index(['firmId', 'ticketId', 'takenAt', 'id'])
@Index(['firmId', 'visitId', 'takenAt', 'id'])
@Index(['firmId', 'recordedAt'], { where: '(image IS NOT NULL)' })
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
@ForeignKey('Ticket', ['firmId', 'ticketId'], ['firmId', 'id'])
@ForeignKey('Visit', ['firmId', 'visitId'], ['firmId', 'id'])
export class Photo extends FirmRow {
  @Column('uuid')
  siteId!: string;

  @Column('uuid', { nullable: true })
  ticketId!: string | null;

  @Column('uuid', { nullable: true })
  visitId!: string | null;

  @Column('text')
  format!: PhotoFormat;

  @Column('integer')
  byteCount!: number;

  @Column('text', { nullable: true })
  caption!: string | null;

  @Column('text')
  takenBy!: string;

  @Column('timestamptz')
  takenAt!: Date;

  @Column('timestamptz')
  recordedAt!: Date;

  /** Null once it was withdrawn, or after its time. Read by itself alone. */
  @Column('bytea', { nullable: true, select: false })
  image!: Buffer | null;

  @Column('text', { nullable: true })
  withdrawnBy!: string | null;

  @Column('timestamptz', { nullable: true })
  withdrawnAt!: Date | null;

  @Column('text', { nullable: true })
  withdrawnBecause!: string | null;
}
