import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsInt, IsOptional, Max, Min } from 'class-validator';
import { NextPromiseDto } from '../tickets/ticket.dto.js';
import { TICKET_STATES, type TicketState } from '../tickets/ticket-lifecycle.js';

/** A span of a strip that is suspected. */
export class SuspectedSpanDto {
  /** Position in the strip of the node that it leads into, from 0. */
  at!: number;

  chance!: number;
}

/** A trunk in one line. */
export class StripDto {
  /** @example "A" */
  trunk!: string;

  /**
   * A letter for each node in the record's order: `s` silent, `w` weak, `h` heard, `-` nothing said.
   * @example "-hh-ss--"
   */
  marks!: string;

  /** Of the likeliest places. */
  suspected!: SuspectedSpanDto[];
}

/** Who goes, or is there. */
export class GoingDto {
  @ApiProperty({ format: 'uuid' })
  visitId!: string;

  /** Null: nobody is named yet. */
  technician!: string | null;

  @ApiProperty({ format: 'date' })
  on!: string;

  /** Somebody is there now. */
  isThere!: boolean;
}

export class DeskSiteDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  name!: string;
  zone!: string;
  servesEmergencyCalls!: boolean;
}

export class DeskPlaceDto {
  /** @example "between Room 12 and Room 13 on trunk A, 83 %" */
  words!: string;
  probability!: number;
}

/** An open ticket, as whoever sends people sees it. */
export class DeskTicketDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  number!: number;

  @ApiProperty({ enum: TICKET_STATES })
  state!: TicketState;
  site!: DeskSiteDto;
  openedBy!: string;
  openedAt!: Date;

  /** Rooms in which something was last said not to work. */
  silentRooms!: number;

  /** As it was worked out after the last change; null where nothing was. */
  @ApiProperty({ type: DeskPlaceDto, nullable: true })
  likeliest!: DeskPlaceDto | null;

  /** The trunks on which something does not work. */
  strips!: StripDto[];

  @ApiProperty({ type: GoingDto, nullable: true })
  going!: GoingDto | null;

  /** By its contract, as it was reckoned last; null where nothing is due. */
  @ApiProperty({ type: NextPromiseDto, nullable: true })
  nextPromise!: NextPromiseDto | null;

  @ApiProperty({ format: 'date', type: String, nullable: true })
  followUpDueOn!: string | null;

  /** Why it cannot wait, as was said last; null where nobody said so. */
  urgentReason!: string | null;
}

export class DeskQueryDto {
  /** `newest` as it was read first: `newer` counts what came since. */
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(0)
  @Max(2147483647)
  after?: number;
}

export class DeskDto {
  /** Open tickets, what is due first by contract first, then the one that waits longest; at most 500. */
  items!: DeskTicketDto[];

  /** Open tickets beyond those. */
  more!: number;

  /** The highest number of an open ticket, listed or not; 0: none is open. */
  newest!: number;

  /** Open tickets with a higher number than `after`, listed or not; 0 where that is left out. */
  newer!: number;

  /** When it was read. */
  readAt!: Date;
}
