import { ApiProperty } from '@nestjs/swagger';
import {
  type Core,
  CORES,
  type FunctionName,
  FUNCTIONS,
  type HeadEndModeName,
  PORT_MODES,
  type PortMode,
} from '../locator/index.js';
import { DrawingAnswerDto, LocatedPlaceDto, TroubleDto } from './troubles.dto.js';

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
  /**
   * The largest chance, over all that was complained of, that its cause is here; 0 where nothing was.
   * @example 0.91
   */
  accounts!: number;
  components!: ComponentChancesDto[];
}

/** Something told that hardly goes with all the rest. */
export class AgainstTheRestDto {
  /** Its place in the request’s list. */
  observation!: number;
  /**
   * The chance that it would be told so, given everything else; less than 0.05.
   * @example 0.004
   */
  given!: number;
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

/** What a check measures: a voltage, or continuity. */
export class CheckedReadingDto {
  @ApiProperty({ enum: ['supply-volts', 'continuity'] })
  kind!: 'supply-volts' | 'continuity';
  trunk!: string;
  /** Of a voltage. */
  node?: string;
  /** Of continuity; null: the head-end’s port. */
  @ApiProperty({ type: String, nullable: true, required: false })
  from?: string | null;
  to?: string;
  @ApiProperty({ enum: CORES, isArray: true, required: false })
  cores?: Core[];
}

/** Something that a technician can try, look at or measure, named as evidence is. */
export class CheckDto {
  @ApiProperty({ enum: ['hear', 'look', 'disconnection', 'reading'] })
  kind!: 'hear' | 'look' | 'disconnection' | 'reading';

  /** Of what is heard, with the trunk whole or not: so are `node` and `function`. */
  trunk?: string;
  node?: string;
  @ApiProperty({ enum: FUNCTIONS, required: false })
  function?: FunctionName;

  /** The node below which the cable is disconnected meanwhile. */
  disconnectedBelow?: string;

  /** Of a look; so is `part`. */
  place?: LocatedPlaceDto;
  /** @example "junction-in" */
  part?: string;
  /** Of a setting that the head-end has for each group of stations. */
  group?: string;

  /** Of a reading. */
  reading?: CheckedReadingDto;

  /** About the causes of what is missed where checks were asked for, each group of troubles once; else about itself. */
  informationBits!: number;
  /** What it takes, without the way there. */
  minutes?: number;
  bitsPerMinute?: number;
}

/** A span of a stretch and its share of the suspicion. */
export class StretchSpanDto {
  /** The node that feeds it; null: the head-end’s port. */
  @ApiProperty({ type: String, nullable: true })
  from!: string | null;
  to!: string;
  /**
   * Of all suspicion of the stretch; the shares sum to 1.
   * @example 0.41
   */
  share!: number;
}

/** Spans in a row between which nothing is known: the evidence cannot tell them apart. */
export class StretchDto {
  trunk!: string;
  /** The node that feeds its first span; null: the head-end’s port. */
  @ApiProperty({ type: String, nullable: true })
  from!: string | null;
  /** The node that its last span leads into. */
  to!: string;
  /**
   * The chance that at least one of its spans is faulty.
   * @example 0.83
   */
  probability!: number;
  /** From the head-end outwards. */
  spans!: StretchSpanDto[];
}

/** What arrives at a node, and what is seen from there. */
export class NodeExplanationDto {
  node!: string;
  /** Cores that arrive. */
  @ApiProperty({ enum: CORES, isArray: true })
  feed!: Core[];
  /** A bad joint in the supply pair is on the way. */
  weak!: boolean;
  /** Cores whose short to return is visible looking down from the node. */
  @ApiProperty({ enum: CORES, isArray: true })
  view!: Core[];
}

export class TrunkExplanationDto {
  trunk!: string;
  @ApiProperty({ enum: ['ok', ...PORT_MODES] })
  port!: 'ok' | PortMode;
  /** Nodes that something is known of, or with more than one child. */
  nodes!: NodeExplanationDto[];
}

/** A place with the chance that something there is faulty, given an explanation. */
export class LikelyPlaceDto {
  place!: LocatedPlaceDto;
  /** @example 0.98 */
  probability!: number;
}

/** One way in which all that is known may have come about. */
export class ExplanationDto {
  /** @example 0.61 */
  probability!: number;
  /** `ok` or a fault; that of a group carries its name, as in `group-off:ground floor`. */
  @ApiProperty({ type: String, example: 'ok' })
  headEnd!: 'ok' | HeadEndModeName;
  trunks!: TrunkExplanationDto[];
  /**
   * Most probable first: at most 12, each with a chance of at least 0.001 and odds at least twice those before anything
   * was known.
   */
  likely!: LikelyPlaceDto[];
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
  /** The chance that all is well that was complained of; 1 where nothing was. */
  quiet!: number;
  /** For each function at a station that was complained of, what may be the cause. */
  troubles!: TroubleDto[];
  /** The drawing as a hypothesis; all else here is under the drawing as sent. */
  drawing!: DrawingAnswerDto;
  /** What hardly goes with the rest, the least likely first. */
  againstTheRest!: AgainstTheRestDto[];
  /** Every place of the site, by what it accounts for, then most probable first. */
  places!: PlaceChanceDto[];
  predictions!: PredictionDto[];
  /** Best first: by bits for each minute where checks were asked for, else every function at every station by bits. */
  checks!: CheckDto[];
  /** True where checks were asked for and even one of each kind would be too much to try. */
  checksLeftOut?: boolean;
  /** Every span, in stretches that the evidence cannot tell apart, most probable first. */
  stretches!: StretchDto[];
  /**
   * The most probable explanations, most probable first; left out where the request asks for none, and where
   * `explanationsLeftOut` says why.
   */
  explanations?: ExplanationDto[];
  /**
   * The chance that none of the explanations listed is true.
   * @example 0.04
   */
  uncovered?: number;
  /**
   * True where explanations were asked for and there would be too many products to sum over: what was told of a trunk with
   * cables off, or continuity and loop readings and informants who may be confused, overlap in too many ways; or a trunk has
   * something told with a cable off and such readings.
   */
  explanationsLeftOut?: boolean;
  /**
   * True where the list ended before all that were asked for, because of the work or because it holds the states of 50,000
   * nodes: each that it holds has its right chance, but others may be as probable. It holds none where even one would have
   * taken too much work.
   */
  explanationsEndedEarly?: boolean;
  /**
   * Ids of informants who were taken for nobody in particular, and so not for confused: at most 10 who told about several
   * nodes can straddle one place, and those with the fewest words give way. Left out where none had to.
   * @example ["caller-11"]
   */
  identitiesDropped?: string[];
  /**
   * Trunks with a loop that was read and branches on which more places could hold its short than an answer has time to compare: which of two shorts
   * on different branches is the nearer to the head-end is told in steps there, and not place by place. Left out where there is none.
   * @example ["A"]
   */
  shortsInSteps?: string[];
  /** By trunk: bad joints in the supply pair, where volts were read and one is in play. */
  resistiveJoints?: ResistiveJointsDto[];
}
