import { Column, Entity, ForeignKey, Index, Unique } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { NoticeFacts } from './notice-kinds.js';

/** One happening told, or to be told, to one that asked. */
@Entity('notices')
@Unique('notices_once', ['firmId', 'wishId', 'happening'])
@Index(['firmId', 'createdAt'])
@ForeignKey('NoticeWish', ['firmId', 'wishId'], ['firmId', 'id'], { onDelete: 'CASCADE' })
export class Notice extends FirmRow {
  @Column('uuid')
  wishId!: string;

  @Column('text')
  happening!: string;

  @Column('jsonb')
  facts!: NoticeFacts;

  @Column('timestamptz')
  createdAt!: Date;

  /** Of a webhook: when it was taken; of a mail: when it went to the outbox. */
  @Column('timestamptz', { nullable: true })
  sentAt!: Date | null;

  @Column('integer')
  tries!: number;

  @Column('text', { nullable: true })
  failure!: string | null;
}
