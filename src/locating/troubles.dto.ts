import { ApiProperty } from '@nestjs/swagger';
import { FUNCTIONS, type FunctionName } from '../locator/index.js';

/** A place of the site: a span, a station, a trunk's port, or the head-end. */
export class LocatedPlaceDto {
  @ApiProperty({ enum: ['span', 'station', 'port', 'head-end'] })
  kind!: 'span' | 'station' | 'port' | 'head-end';

  /** Of all but the head-end. */
  trunk?: string;

  /** Of a span: the node that feeds it; null: the head-end’s port. */
  @ApiProperty({ type: String, nullable: true, required: false })
  from?: string | null;

  /** Of a span: the node it feeds. */
  to?: string;

  /** Of a station. */
  node?: string;
}

/**
 * What keeps a function from a station: the first that applies on the way from the head-end. `nothing`: it is good, and the
 * report wrong; `weak-feed`: a bad joint that was not looked for; `rest`: all that is not listed.
 */
export class CauseDto {
  @ApiProperty({
    enum: ['span', 'head-end', 'port', 'short', 'station', 'weak-feed', 'nothing', 'rest'],
  })
  kind!: 'span' | 'head-end' | 'port' | 'short' | 'station' | 'weak-feed' | 'nothing' | 'rest';

  trunk?: string;

  /** Of a span: the node that feeds it; null: the head-end’s port. */
  @ApiProperty({ type: String, nullable: true, required: false })
  from?: string | null;

  /** Of a span: the node it feeds. */
  to?: string;

  /** Of a span. */
  @ApiProperty({ enum: ['junction-out', 'cable', 'junction-in'], required: false })
  component?: 'junction-out' | 'cable' | 'junction-in';

  /** Of a station. */
  node?: string;

  /** Of a station or the head-end. */
  mode?: string;
}

/** A place that may hold the short. */
export class WithinDto {
  place!: LocatedPlaceDto;
  /** Given that a short is the cause; several at once may pass 1. */
  probability!: number;
}

/** How likely one cause is. */
export class CauseChanceDto {
  cause!: CauseDto;
  /** @example 0.43 */
  probability!: number;
  /** Of a short: at most 20 places, most probable first. */
  within?: WithinDto[];
}

/** A function at a station that somebody said is weak or fails. */
export class TroubleDto {
  @ApiProperty({ enum: FUNCTIONS })
  function!: FunctionName;
  trunk!: string;
  node!: string;
  /** Most probable first, at most 20 and then `rest`; they add up to 1. */
  causes!: CauseChanceDto[];
}

/** The look that tells an alternative from the drawing without doubt. */
export class TellApartDto {
  @ApiProperty({ enum: ['cables-at-node', 'name-at-door'] })
  look!: 'cables-at-node' | 'name-at-door';
  trunk!: string;
  /** Where to count the cables that enter or leave. */
  node?: string;
  /** So many by the drawing. */
  asDrawn?: number;
  /** So many by the alternative. */
  alternative?: number;
  /** The two whose names to compare with the doors. */
  nodes?: string[];
}

/** A way in which a trunk may be laid that its drawing does not show. */
export class DrawingAlternativeDto {
  /**
   * `branch`: the run hangs from a tee at the node before it; `end`: it lies behind the last node; `swapped`: the two have
   * each other’s names.
   */
  @ApiProperty({ enum: ['branch', 'end', 'swapped'] })
  kind!: 'branch' | 'end' | 'swapped';
  trunk!: string;
  from!: string;
  to!: string;
  /** The widest run that the evidence cannot tell from this one. */
  atMostFrom?: string;
  atMostTo?: string;
  /** @example 0.66 */
  probability!: number;
  tellApart!: TellApartDto;
  /** What may be the causes, were the trunk laid so. */
  troubles!: TroubleDto[];
}

/** How far the drawing is to be believed. */
export class DrawingAnswerDto {
  /**
   * The chance that every trunk is laid as drawn, but for what the evidence cannot tell from it.
   * @example 0.31
   */
  asDrawn!: number;
  /** With a chance of at least 0.01, most probable first. */
  alternatives!: DrawingAlternativeDto[];
}
