import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import { Firm } from '../database/firm.entity.js';

/** A mail to be sent, or sent. */
@Entity('mails')
@Index(['firmId', 'createdAt', 'id'])
@ForeignKey(() => Firm, ['firmId'], ['firmId'])
export class Mail extends FirmRow {
  @Column('text')
  recipient!: string;

  @Column('text')
  subject!: string;

  /** Null once it is sent: links in it are secrets. */
  @Column('text', { nullable: true })
  text!: string | null;

  /** Where such mails are ended; null once it is sent. */
  @Column('text', { nullable: true })
  wayOut!: string | null;

  @Column('timestamptz')
  createdAt!: Date;

  @Column('timestamptz', { nullable: true })
  sentAt!: Date | null;

  /** Why the mail server did not take it. */
  @Column('text', { nullable: true })
  failure!: string | null;
}
