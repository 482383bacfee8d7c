import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import {
  DEFAULT_EXPLANATIONS,
  type FunctionName,
  FUNCTIONS,
  INFORMANT_KINDS,
  type InformantKind,
  MAX_EXPLANATIONS,
  MAX_READINGS,
  type Outcome,
  OUTCOMES,
} from '../locator/index.js';
import { LocateReadingDto } from '../readings/locate-reading.dto.js';

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
  /** Needed by readings in volts and ohms. */
  electrical?: LocateElectricalDto;

  @ApiPropertyOptional({ type: [LocateReadingDto], maxItems: MAX_READINGS })
  readings?: LocateReadingDto[];
}
