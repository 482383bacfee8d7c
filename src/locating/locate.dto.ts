import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import {
  BEGUN_BY,
  DEFAULT_EXPLANATIONS,
  DEFAULT_FALSE_ALARM_RATIO,
  type FunctionName,
  FUNCTIONS,
  INFORMANT_KINDS,
  type InformantKind,
  MAX_DISCONNECTIONS_OF_ONE_TRUNK,
  MAX_STATES,
  MAX_STATES_IN_A_ROW,
  MAX_CHECKS,
  MAX_EXPLANATIONS,
  MAX_LOOKS,
  MAX_READINGS,
  MIN_FALSE_ALARM_RATIO,
  type Outcome,
  OUTCOMES,
  type RequestLook,
} from '../locator/index.js';
import { SEEN } from '../plan/look-errors.js';
import { LocateReadingDto } from '../readings/take-reading.dto.js';

// These classes describe the wire form for the API document; the locator itself checks it, for it
// also runs without this app.

/** A station or a junction box, with the span that feeds it. */
export class LocateNodeDto {
  /** @example "A1" */
  id!: string;

  @ApiProperty({ enum: ['station', 'junction-box'] })
  kind!: 'station' | 'junction-box';

  /** The node that feeds it; null: the head-end’s port; left out: the node before it. */
  @ApiProperty({ type: String, nullable: true, required: false })
  fedFrom?: string | null;

  /** @example 18 */
  cableMetres!: number;

  /** Of its span and its station, when it differs from the request's. */
  exposureDays?: number;

  /**
   * Of stations that settings of the head-end switch together.
   * @example ["ground floor"]
   */
  groups?: string[];

  /** Bridged over or taken out: an inert station, of which nothing is told. */
  isOut?: boolean;

  /** Functions that the unit was never fitted with. */
  @ApiPropertyOptional({ enum: FUNCTIONS, isArray: true })
  lacks?: FunctionName[];
}

export class LocateTrunkDto {
  /** @example "A" */
  id!: string;
  nodes!: LocateNodeDto[];
}

export class LocateInformantDto {
  /** Who it is; only an informant with an id can be confused. */
  id?: string;

  @ApiProperty({ enum: INFORMANT_KINDS })
  kind!: InformantKind;
}

export class LocateObservationDto {
  /** @example "A" */
  trunk!: string;
  /** @example "A1" */
  node!: string;
  @ApiProperty({ enum: FUNCTIONS })
  function!: FunctionName;
  @ApiProperty({ enum: OUTCOMES })
  outcome!: Outcome;
  informant?: LocateInformantDto;
  @ApiPropertyOptional({
    description:
      'A node of the trunk: all cable that leaves it was disconnected there meanwhile; at most ' +
      `${MAX_DISCONNECTIONS_OF_ONE_TRUNK} different ones of a trunk, fewer where functions make more than ${MAX_STATES_IN_A_ROW} states of a point, ${MAX_STATES} on a trunk with branches. ` +
      'Evidence only: no trouble is listed for it.',
    example: 'A9',
  })
  disconnectedBelow?: string;
}

/** Where somebody looked. Which fields it has goes by its kind. */
export class LookedAtDto {
  @ApiProperty({ enum: ['span', 'station', 'port', 'head-end'] })
  kind!: RequestLook['place']['kind'];

  /** Of all but the head-end. */
  trunk?: string;

  /** Of a span: the node that feeds it; null: the port. */
  @ApiProperty({ type: String, nullable: true, required: false })
  from?: string | null;

  /** Of a span: the node that it leads into. */
  to?: string;

  /** Of a station. */
  node?: string;
}

export class LookInformantDto {
  @ApiProperty({ enum: INFORMANT_KINDS })
  kind!: InformantKind;
}

/** Somebody looked at a part and found it sound or faulty. */
export class LocateLookDto {
  place!: LookedAtDto;

  @ApiProperty({
    description:
      'Of a span: `junction-out`, `cable` or `junction-in`; of a station: `unit`, or one of its modes; of a port or the ' +
      'head-end: one of its modes.',
    example: 'junction-in',
  })
  part!: string;

  /** Of a group’s mode of the head-end: the group. */
  group?: string;

  @ApiProperty({ enum: SEEN })
  seen!: RequestLook['seen'];

  /** Left out: a technician. */
  informant?: LookInformantDto;
}

export class LocateUnmentionedDto {
  /** @example 0.3 */
  reportRate!: number;
  @ApiProperty({ enum: FUNCTIONS, isArray: true })
  functions!: FunctionName[];
}

/** The supply of every trunk as it was built. Stations draw a constant current; all cable is of one make. */
export class LocateElectricalDto {
  /**
   * From 1 to 1,000.
   * @example 24
   */
  sourceVolts!: number;
  /**
   * Internal resistance of the source.
   * @example 0.2
   */
  sourceOhms!: number;
  /**
   * What one station draws.
   * @example 0.08
   */
  stationAmps!: number;
  /**
   * Of one core, at 20 °C.
   * @example 18.1
   */
  coreOhmsPerKm!: number;
  /**
   * Of the cable; left out: 20.
   * @example 20
   */
  celsius?: number;
}

/** A drawing and evidence. */
export class LocateRequestDto {
  trunks!: LocateTrunkDto[];

  /**
   * Days since the parts were last proven good.
   * @example 91
   */
  exposureDays!: number;

  /** Yearly rates; a group given replaces the model's. */
  @ApiPropertyOptional({
    type: 'object',
    additionalProperties: { type: 'object', additionalProperties: { type: 'number' } },
    example: { headEnd: { power: 0.08 } },
  })
  rates?: Record<string, Record<string, number>>;

  observations?: LocateObservationDto[];

  @ApiPropertyOptional({ type: [LocateLookDto], maxItems: MAX_LOOKS })
  looks?: LocateLookDto[];

  /** How the evidence began; people complain of nothing hardly ever. */
  @ApiPropertyOptional({ enum: BEGUN_BY, default: 'complaint' })
  begunBy?: (typeof BEGUN_BY)[number];

  /** How much rarer complaints are where all is well with what is complained of. */
  @ApiPropertyOptional({
    minimum: MIN_FALSE_ALARM_RATIO,
    maximum: 1,
    default: DEFAULT_FALSE_ALARM_RATIO,
  })
  falseAlarmRatio?: number;

  /** When rooms were volunteered: what silence about the others says. */
  unmentioned?: LocateUnmentionedDto;

  /** How many explanations; 0 to leave them out. */
  @ApiPropertyOptional({
    type: 'integer',
    minimum: 0,
    maximum: MAX_EXPLANATIONS,
    default: DEFAULT_EXPLANATIONS,
  })
  explanations?: number;

  /**
   * How many checks by what they tell about the causes of what is missed, tried one by one; left out or 0: functions
   * alone, by what they tell of themselves. At most 120 nodes then.
   */
  @ApiPropertyOptional({ type: 'integer', minimum: 0, maximum: MAX_CHECKS, default: 0 })
  checks?: number;

  /** Needed by readings in volts and ohms. */
  electrical?: LocateElectricalDto;

  @ApiPropertyOptional({ type: [LocateReadingDto], maxItems: MAX_READINGS })
  readings?: LocateReadingDto[];
}
