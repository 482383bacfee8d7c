import { ApiProperty } from '@nestjs/swagger';
import { AsBuiltDto } from '../sites/as-built.dto.js';
import { LocateRequestDto } from '../locating/locate.dto.js';

/** What somebody who goes there must know of the site. */
export class KitSiteDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  name!: string;
  address!: string | null;
  zone!: string;
  safetyNotes!: string | null;
  servesEmergencyCalls!: boolean;
}

/** Settings and knobs that the office was asked about. */
export class KitLookedAtDto {
  settings!: string[];
  knobs!: { trunk: string; node: string }[];
}

/** What somebody noted, or mended. */
export class KitNoteDto {
  saidBy!: string;
  happenedAt!: Date;
  /** As it was written. */
  words!: string;

  /** Of a mending in the ticket’s own log, which can be taken back; null: it is a note, or of a ticket that was merged into it. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  mendingId!: string | null;
}

/**
 * Everything that a page needs to work out for itself where a ticket's trouble lies and what to do next, with no signal:
 * `locate(request, errorRates, expectedFaults)` answers to the last digit what the ticket's `location` has as `result`.
 */
export class KitDto {
  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  number!: number;

  /** The as-built record that the ticket goes by. */
  asBuiltVersion!: number;

  drawing!: Pick<AsBuiltDto, 'headEnd' | 'trunks'>;

  /** The request as the service poses it. */
  @ApiProperty({ type: LocateRequestDto })
  request!: object;

  /** How many faults of each mode are to be expected in each component. */
  @ApiProperty({ type: Object, additionalProperties: true })
  expectedFaults!: object;

  /** How often each kind of informant says what is not so. */
  @ApiProperty({ type: Object, additionalProperties: true })
  errorRates!: object;

  /** The request by sittings, for what comes and goes; null where all was told at one time. */
  @ApiProperty({ type: Object, additionalProperties: true, nullable: true })
  sittings!: object | null;

  /** What the office was told, and need not be asked again. */
  lookedAt!: KitLookedAtDto;

  /** What the request was made from: with what is entered on site added, a page makes the next one. */
  @ApiProperty({ type: Object, additionalProperties: true })
  evidence!: object;

  /** Days in which a fault may have gone unnoticed. */
  exposureDays!: number;

  /** How long work on site takes, in minutes. */
  @ApiProperty({ type: Object, additionalProperties: { type: 'number' } })
  workTimes!: object;

  site!: KitSiteDto;

  /** Of the ticket and of those merged into it, newest last; at most the last 30. */
  notes!: KitNoteDto[];

  /**
   * The last entries of the log that this tells of, of the ticket and of those merged into it, by their ids, newest first; at most 100.
   * What a page entered itself is in it, or is to be added to it.
   */
  @ApiProperty({ format: 'uuid', isArray: true, type: String })
  entryIds!: string[];

  /** What the site itself noted first. */
  cautions!: string[];
}
