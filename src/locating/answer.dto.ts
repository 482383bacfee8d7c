import { ApiProperty } from '@nestjs/swagger';
import { type FunctionName, FUNCTIONS, OUTCOMES, type Outcome } from '../locator/index.js';
import { SETTLED, type Settled } from './settled-drawing.js';
import { LocatedPlaceDto, TellApartDto } from './troubles.dto.js';

/** A station, by the name of its room. */
export class RoomDto {
  trunk!: string;
  node!: string;
  room!: string | null;
}

const CAUSE_KINDS = [
  'span',
  'port',
  'head-end',
  'short',
  'weak-feed',
  'own-unit',
  'comes-and-goes',
  'nothing',
  'rest',
] as const;

/** A part or a way of failing within a cause. */
export class CauseDetailDto {
  /**
   * Of a span.
   * @example "junction-in"
   */
  component!: string | null;
  /**
   * Of a room’s own unit.
   * @example "volume-down"
   */
  mode!: string | null;
  words!: string;
  probability!: number;
}

/** Where to disconnect a trunk so that a short is on either side with about the same chance. */
export class HalveDto extends RoomDto {
  /** @example "disconnect everything past Room 7: if trunk A comes back, the short lies behind it, else before; then halve again" */
  words!: string;
  /** The chance that it lies behind. */
  behind!: number;
}

/**
 * What may keep something from rooms. `own-unit`: each room’s own; `comes-and-goes`: open now and closed then; `nothing`: what was said
 * is wrong; `rest`: all that is less likely than those that are listed.
 */
export class ToldCauseDto {
  @ApiProperty({ enum: CAUSE_KINDS })
  kind!: (typeof CAUSE_KINDS)[number];

  /** @example "between Room 112 and Room 113 on trunk A" */
  words!: string;

  /** Of a span, a port, the unit of the only room, or what comes and goes; null where it is no one place. */
  @ApiProperty({ type: LocatedPlaceDto, nullable: true })
  place!: LocatedPlaceDto | null;

  /**
   * Of the head-end.
   * @example "microphone"
   */
  mode!: string | null;

  /** @example 0.914 */
  probability!: number;

  /**
   * Whole percent; those of a trouble add up to 100.
   * @example 91
   */
  percent!: number;

  /** Most probable first. */
  details!: CauseDetailDto[];

  /** Of a short. */
  @ApiProperty({ type: HalveDto, nullable: true })
  halve!: HalveDto | null;
}

/** What is missed in which rooms. */
export class MissedDto {
  @ApiProperty({ enum: FUNCTIONS, isArray: true })
  functions!: FunctionName[];
  /** In the order of the record. */
  rooms!: RoomDto[];
}

/** What is missed and what may be the cause: points whose causes are alike are one trouble. */
export class GroupedTroubleDto {
  /** @example "announcements in Rooms 113 to 124: between Room 112 and Room 113 on trunk A, 99 %; nothing wrong, 1 %" */
  words!: string;
  trunk!: string;
  missed!: MissedDto[];
  /** Most probable first, `rest` last; chances add up to 1. */
  causes!: ToldCauseDto[];
}

/** A place that is likely broken and accounts for nothing that was reported. */
export class AlsoBrokenDto {
  words!: string;
  place!: LocatedPlaceDto;
  probability!: number;
}

/** Who said what. */
export class SayingDto {
  @ApiProperty({ format: 'uuid' })
  observationId!: string;
  saidBy!: string;

  @ApiProperty({ enum: OUTCOMES })
  outcome!: Outcome;
}

/** Two who say different things of one room at one time, or one whose word hardly goes with all the rest. */
export class ContradictionDto {
  /** @example "Room 109, announcements: Mara Quill says it works and Tem Sorrel says it does not work. Both cannot be so: ask again there." */
  words!: string;
  trunk!: string;
  node!: string;
  room!: string | null;

  @ApiProperty({ enum: FUNCTIONS })
  function!: FunctionName;
  said!: SayingDto[];
  /** The chance of the one word, given all else that was told; null where two say different things. */
  given!: number | null;
}

/** A way in which the drawing may be wrong, and the look that tells. */
export class DrawingDoubtDto {
  /** @example "the drawing may be wrong: Room 105 to Room 108 may hang from a branch at Room 104, 66 %" */
  words!: string;
  /** @example "count the cables at Room 104: 2 by the drawing, 3 if it is wrong so" */
  tellApartWords!: string;

  @ApiProperty({ enum: ['branch', 'end', 'swapped'] })
  kind!: 'branch' | 'end' | 'swapped';
  trunk!: string;
  from!: string;
  to!: string;
  probability!: number;
  tellApart!: TellApartDto;

  /** What somebody who looked found, the drawing, this other way or neither; null: nobody looked since the last mending. */
  @ApiProperty({ enum: SETTLED, nullable: true })
  settled!: Settled | null;
}

/** What to do first, and why. */
export class FirstStepDto {
  @ApiProperty({ enum: ['drawing', 'office', 'place', 'on-site', 'nothing'] })
  kind!: 'drawing' | 'office' | 'place' | 'on-site' | 'nothing';
  words!: string;
}
