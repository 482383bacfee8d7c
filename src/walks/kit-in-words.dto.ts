import { ApiProperty } from '@nestjs/swagger';
import type { EntryDetails } from '../tickets/ticket-log.js';
import { KitSiteDto } from './kit.dto.js';

/** Something that was said of a ticket, in words. */
export class SaidInWordsDto {
  saidBy!: string;
  happenedAt!: Date;

  /** As it was written; empty where nothing was. */
  words!: string;

  /** A number to ring them back; null where nobody left one. */
  callBackPhone!: string | null;

  /** What else they heard. */
  @ApiProperty({ enum: ['humming', 'crackling', 'wrong-time'], isArray: true })
  oddities!: NonNullable<EntryDetails['oddities']>[number][];
}

/** What somebody who goes to a site that nobody has drawn must have with no signal. */
export class KitInWordsDto {
  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  number!: number;

  /** Why it cannot wait, as was said last; null where nobody said so. */
  urgentReason!: string | null;

  /** Reports, notes and what was mended, of the ticket and of those merged into it, newest last; at most the last 30. */
  said!: SaidInWordsDto[];

  /** The last entries of the log, by their ids, newest first; at most 100. */
  @ApiProperty({ format: 'uuid', isArray: true, type: String })
  entryIds!: string[];

  site!: KitSiteDto;

  /** What the site itself noted first. */
  cautions!: string[];
}
