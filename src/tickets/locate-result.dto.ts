import { ApiProperty } from '@nestjs/swagger';
import { type FunctionName, FUNCTIONS } from '../locator/index.js';

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

/** One component of a place and how it may be. */
export class ComponentChancesDto {
  /** @example "junction-in" */
  component!: string;

  /** The chance of each mode, `ok` among them. */
  @ApiProperty({
    type: 'object',
    additionalProperties: { type: 'number' },
    example: { ok: 0.4, parted: 0.2 },
  })
  modes!: Record<string, number>;
}

/** How likely it is that at least one component of a place is faulty. */
export class PlaceChanceDto {
  place!: LocatedPlaceDto;
  /** @example 0.83 */
  probability!: number;
  components!: ComponentChancesDto[];
}

/** How likely a function is not dead at a station. */
export class PredictionDto {
  trunk!: string;
  node!: string;
  @ApiProperty({ enum: FUNCTIONS })
  function!: FunctionName;
  /** The chance that it is not dead. */
  works!: number;
}

/** How much a look at one function at one station would tell a technician. */
export class CheckDto {
  trunk!: string;
  node!: string;
  @ApiProperty({ enum: FUNCTIONS })
  function!: FunctionName;
  informationBits!: number;
}

/** The size of a bad joint: median and 90 % interval. */
export class JointOhmsDto {
  median!: number;
  low!: number;
  high!: number;
}

/** One place where a bad joint in the supply pair may be. */
export class JointCandidateDto {
  place!: LocatedPlaceDto;
  /** @example "junction-in" */
  component!: string;
  /** @example 0.41 */
  probability!: number;
  ohms!: JointOhmsDto;
}

/** What the voltages read on one trunk say together about a bad joint; the chances sum to one. */
export class ResistiveJointsDto {
  trunk!: string;
  /** Most probable first. */
  candidates!: JointCandidateDto[];
  /** The supply arrives in full wherever it was read. */
  noJoint!: number;
  /** Everything else: a dead supply, several bad joints, spans that are not among the candidates. */
  notCovered!: number;
}

/** All that the fault model computes from a drawing and evidence. */
export class LocateResultDto {
  /** Natural logarithm of the probability of the evidence. */
  logEvidence!: number;
  /** Every place of the site, most probable first. */
  places!: PlaceChanceDto[];
  predictions!: PredictionDto[];
  /** Best first. */
  checks!: CheckDto[];
  /** By trunk: bad joints in the supply pair, where volts were read and one is in play. */
  resistiveJoints?: ResistiveJointsDto[];
}
