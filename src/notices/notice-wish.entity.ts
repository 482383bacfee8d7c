import { Check, Column, Entity, ForeignKey, Index } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { Language } from '../words/index.js';
import type { NoticeKind, NoticeWay } from './notice-kinds.js';

/** What somebody asked to hear of, by mail, or for a system of the firm. */
@Entity('notice_wishes')
@Index(['secretHash'], { unique: true })
@Index(['firmId', 'personId'])
@Check('notice_wishes_check', "((way = 'webhook') = (url IS NOT NULL))")
@ForeignKey('Person', ['firmId', 'personId'], ['firmId', 'id'])
@ForeignKey('Site', ['firmId', 'siteId'], ['firmId', 'id'])
export class NoticeWish extends FirmRow {
  /** Who asked; who is told, of a mail. */
  @Column('uuid')
  personId!: string;

  @Column('text')
  way!: NoticeWay;

  @Column('text', { array: true })
  kinds!: NoticeKind[];

  /** Null: of all sites that the person has to do with. */
  @Column('uuid', { nullable: true })
  siteId!: string | null;

  @Column('text')
  language!: Language;

  /** Of a webhook: where it is sent. */
  @Column('text', { nullable: true })
  url!: string | null;

  /** What webhooks are signed with, or the way out of mails: sealed, because both are written again. */
  @Column('text')
  sealedSecret!: string;

  /** Finds the wish by the way out that each mail shows. */
  @Column('text')
  secretHash!: string;

  @Column('timestamptz')
  createdAt!: Date;

  @Column('timestamptz', { nullable: true })
  endedAt!: Date | null;
}
