import { ApiProperty } from '@nestjs/swagger';
import { IsOptional, IsString, MaxLength } from 'class-validator';
import { LocatedPlaceDto } from '../locating/troubles.dto.js';
import { type FunctionName, FUNCTIONS, type Outcome, OUTCOMES } from '../locator/index.js';
import { SEEN } from '../plan/look-errors.js';
import { WALK_RECORD_KINDS, type WalkRecord } from './walk-records.js';

export class WalkQueryDto {
  /**
   * The node where the technician stands; left out: the head-end.
   * @example "A9"
   */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  from?: string;

  /**
   * Its trunk, where several trunks have a node of that code.
   * @example "A"
   */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  trunk?: string;
}

/** Where one stands. */
export class StandingDto {
  /** @example "A" */
  trunk!: string;

  /** Null: at the head-end. */
  node!: string | null;

  /** @example "Room 9" */
  words!: string;
}

/** What is written down of how a step ended; which members it has goes by its kind. */
export class WalkRecordDto {
  /**
   * `heard`: an observation, for `POST /tickets/{id}/reports`. `look`: for `…/looks`. `step`: for `…/notes`, which the walk then
   * goes by. `finding`: for `…/findings`, and then `…/mendings`. `mending`: for `…/mendings`.
   */
  @ApiProperty({ enum: WALK_RECORD_KINDS })
  kind!: WalkRecord['kind'];

  trunk?: string;
  node?: string;

  @ApiProperty({ enum: FUNCTIONS, required: false })
  function?: FunctionName;

  @ApiProperty({ enum: OUTCOMES, required: false })
  outcome?: Outcome;

  disconnectedBelow?: string;
  place?: LocatedPlaceDto;

  /** @example "junction-out" */
  part?: string;
  group?: string;

  @ApiProperty({ enum: SEEN, required: false })
  seen?: (typeof SEEN)[number];

  /** The check that was made. */
  check?: string;

  /** Which of the ways in which the check can end, from 0. */
  ending?: number;

  /** @example "junction-out" */
  component?: string;
  mode?: string | null;
}

/** One way in which a step can end. */
export class WalkEndingDto {
  /** @example "it is lit" */
  seen!: string;

  /** Given that the step is reached. */
  probability!: number;

  /** `plan-again`: record on the ticket what was seen, and ask for the plan from there. */
  @ApiProperty({ enum: ['go-on', 'restored', 'plan-again'] })
  then!: 'go-on' | 'restored' | 'plan-again';

  /** To be entered on the ticket when it ended so. */
  @ApiProperty({ type: [WalkRecordDto] })
  records!: readonly WalkRecordDto[];

  @ApiProperty({ type: () => WalkStepDto, nullable: true })
  next!: WalkStepDto | null;
}

/** What is looked at. */
export class WalkLookDto {
  place!: LocatedPlaceDto;

  /** @example "junction-out" */
  part!: string;

  /** Of a setting of a group. */
  group?: string;
}

/** One thing to do. */
export class WalkStepDto {
  /**
   * `open`: see to a place, and mend it if the fault is there. `remake`: it was opened and looked sound, and is suspected all
   * the same: make it anew.
   */
  @ApiProperty({ enum: ['check', 'open', 'remake'] })
  kind!: 'check' | 'open' | 'remake';

  /** @example "Look at the lamp in Room 9" */
  words!: string;

  where!: StandingDto;

  /**
   * Of a place that is opened: what is looked at there, as `POST /tickets/{id}/looks` takes it. Null for checks, and where
   * several parts of the place are suspect.
   */
  @ApiProperty({ type: () => WalkLookDto, nullable: true })
  look!: WalkLookDto | null;

  /** The same where it may be several parts; empty for checks. */
  @ApiProperty({ type: [WalkLookDto] })
  looks!: readonly WalkLookDto[];

  /** To go there and do it. */
  minutes!: number;

  /** From before this step until every reported function works again. */
  expectedMinutes!: number;

  @ApiProperty({ type: [WalkEndingDto] })
  endings!: WalkEndingDto[];
}

/** A part that may be needed. */
export class WalkPartDto {
  /** @example "connectors" */
  id!: string;

  /** The chance that it is needed. */
  neededChance!: number;

  /** Worth taking along, by what a second trip costs. */
  isCarried!: boolean;
}

/** Parts that are needed together. */
export class NeededTogetherDto {
  parts!: string[];

  /** That just these are needed, if something is at fault. */
  chance!: number;
}

/** What to do next about a ticket, for somebody on site. It advises; the person on site decides. */
export class WalkDto {
  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  from!: StandingDto;

  /** The plan is the exact optimum: one fault on an unbranched stretch. Otherwise it looks ahead. */
  isExact!: boolean;

  /**
   * Until every reported function works again, if something is at fault.
   * @example 29.5
   */
  expectedMinutes!: number;

  /** The deviation of the minutes, by where the fault turns out to be; how quick somebody is comes on top. */
  spreadMinutes!: number;

  /** On top: to prove every room of the trunks that were reported. */
  walkTestMinutes!: number;

  /** The chance that nothing that was said is due to a fault. */
  nothingAtFault!: number;

  /** Share of what may be at fault that the plan leaves out, because it is improbable. */
  notPlannedWith!: number;

  /** Readings that the plan goes by, as the location does. */
  @ApiProperty({ format: 'uuid', isArray: true, type: String })
  readingsUsed!: string[];

  /** Null: nothing is suspect. Its place is the first destination. */
  @ApiProperty({ type: WalkStepDto, nullable: true })
  next!: WalkStepDto | null;

  /**
   * What settles the drawing, where it is likelier wrong than not: the plan goes by the drawing as it is.
   * @example "First: count the cables at Room 104: 2 by the drawing, 3 if it is wrong so. What was told goes badly with the drawing, and this settles it."
   */
  drawingFirst!: string | null;

  /**
   * The plan as plain text, a line each, to be printed.
   * @example ["From the head-end, about 21 min until all works again.","Look at the lamp in Room 9 (3 min).","  If it is lit (62 %): Open the terminals at Room 12 OUT (6 min)."]
   */
  printed!: string[];

  /** Most needed first. */
  @ApiProperty({ type: [WalkPartDto] })
  parts!: WalkPartDto[];

  /** The chance that some part is needed that was not taken along. */
  secondTripChance!: number;

  /** Which parts are needed together, the likeliest first, at most 30; where a hand is enough, none. */
  @ApiProperty({ type: [NeededTogetherDto] })
  neededTogether!: NeededTogetherDto[];

  cautions!: string[];
}
