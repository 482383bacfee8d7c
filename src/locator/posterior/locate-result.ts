import type { DrawingAnswer } from '../alternatives/drawing-answer.js';
import type { AgainstTheRest } from '../surprise/against-the-rest.js';
import type { Trouble } from '../causes/trouble-answer.js';
import type { ResistiveJoints } from '../readings/joint-answer.js';
import type { Place } from '../../drawing/drawn-node.js';
import type { Core } from '../../plan/cores.js';
import type { FunctionName } from '../../plan/functions.js';
import type { HeadEndModeName, PortMode } from '../../plan/modes.js';

export type ComponentName =
  'junction-out' | 'cable' | 'junction-in' | 'station' | 'port' | 'head-end';

/** P(mode | evidence) of one component, `ok` first and then each mode of its rate table. */
export interface ComponentChances {
  component: ComponentName;
  modes: Record<string, number>;
}

/** P(at least one faulty component | evidence) of one place. */
export interface PlaceChance {
  place: Place;
  probability: number;
  /** The largest chance, over all points complained of, that the point's cause is here; 0 without points. */
  accounts: number;
  components: ComponentChances[];
}

/** P(condition is not dead | evidence). */
export interface Prediction {
  trunk: string;
  node: string;
  function: FunctionName;
  works: number;
}

/** What a check tells, in bits, and where it was weighed by the causes, what it takes; without the way there. */
interface CheckFigures {
  informationBits: number;
  minutes?: number;
  bitsPerMinute?: number;
}

/** Something that a technician can try, look at or measure: evidence in the wire form but for what comes of it. */
export type Check = CheckFigures &
  (
    | { kind: 'hear'; trunk: string; node: string; function: FunctionName }
    | { kind: 'look'; place: Place; part: string; group?: string }
    | {
        kind: 'disconnection';
        trunk: string;
        node: string;
        function: FunctionName;
        disconnectedBelow: string;
      }
    | {
        kind: 'reading';
        reading:
          | { kind: 'supply-volts'; trunk: string; node: string }
          | { kind: 'continuity'; trunk: string; from: string | null; to: string; cores: Core[] };
      }
  );

/** A place with the chance that something there is faulty, given an explanation. */
export interface LikelyPlace {
  place: Place;
  probability: number;
}

/** What arrives at a node and what is seen from there. */
export interface NodeExplanation {
  node: string;
  /** Cores that arrive, in the order of CORES. */
  feed: Core[];
  /** Whether a bad joint in the supply pair is on the way. */
  weak: boolean;
  /** Cores whose short to return is visible looking down from the node. */
  view: Core[];
}

export interface TrunkExplanation {
  trunk: string;
  port: 'ok' | PortMode;
  /** Nodes with evidence or more than one child, each after the one above it. */
  nodes: NodeExplanation[];
}

/** One way in which all that is known may have come about; stations' modes and components are summed out. */
export interface Explanation {
  /** P(explanation | evidence). */
  probability: number;
  headEnd: 'ok' | HeadEndModeName;
  trunks: TrunkExplanation[];
  /**
   * Places with the chance that something there is faulty, given the explanation, most probable first; equals by id.
   * At most 12, with a chance of at least 0.001 and odds at least twice those before the evidence.
   */
  likely: LikelyPlace[];
}

/** Spans in a row between which nothing is known, so that the evidence cannot tell them apart. */
export interface Stretch {
  trunk: string;
  /** The node that feeds its first span; null: the head-end's port. */
  from: string | null;
  /** The node that its last span leads into. */
  to: string;
  /** P(at least one of its spans is faulty | evidence). */
  probability: number;
  /** From the top down, each with its share of the suspicion; the shares sum to 1. */
  spans: { from: string | null; to: string; share: number }[];
}

export interface LocateResult {
  /** Natural logarithm of P(evidence). */
  logEvidence: number;
  /** P(all is well that was complained of | evidence); 1 where nothing was. */
  quiet: number;
  /** For each point complained of, by trunk and node, what may be the cause. */
  troubles: Trouble[];
  /** How far the drawing is to be believed; all else in the answer is under the drawing as sent. */
  drawing: DrawingAnswer;
  /** Every observation that had less than 0.05 given all other evidence, the least likely first; equals by place. */
  againstTheRest: AgainstTheRest[];
  /** Every place of the site, by what it accounts for, then most probable first; equals by id. */
  places: PlaceChance[];
  /** Every span, in stretches that the evidence cannot tell apart, most probable first; equals by id. */
  stretches: Stretch[];
  /** Every function at every station, by trunk, a node after the one that feeds it. */
  predictions: Prediction[];
  /**
   * Where the request asks for some: those that tell most about the causes for each minute, best first, none below 0.01 bits. Else every
   * function at every station by what it tells of itself, most telling first; equals by id.
   */
  checks: Check[];
  /** True where checks were asked for and even one of each kind would be too much to try. */
  checksLeftOut?: true;
  /**
   * The most probable explanations, most probable first; equals by states. Left out where none were asked for, and where
   * `explanationsLeftOut` says why.
   */
  explanations?: Explanation[];
  /** The chance that none of the explanations listed is true; left out with them. */
  uncovered?: number;
  /**
   * True where explanations were asked for and there would be too many products to sum over: what was told of a trunk with
   * cables off, or continuity and loop readings and informants who may be confused, overlap in too many ways; or a trunk has
   * something told with a cable off and such readings.
   */
  explanationsLeftOut?: true;
  /**
   * True where the list ended before all that were asked for, because of the work or because it holds the states of 50,000
   * nodes: each that it holds has its right chance, but others may be as probable. It holds none where even one would have
   * taken too much work.
   */
  explanationsEndedEarly?: true;
  /**
   * Informants with an id who were taken for nobody in particular, and so not for confused: more told about overlapping
   * stretches than can be carried. Left out where none was.
   */
  identitiesDropped?: string[];
  /**
   * Trunks with a loop that was read and branches on which more places could hold its short than an answer has time to compare: which of two shorts
   * on different branches is the nearer to the head-end is told in steps there, and not place by place. Left out where there is none.
   */
  shortsInSteps?: string[];
  /** By trunk: bad joints in the supply pair, where volts were read and one is in play; else left out. */
  resistiveJoints?: ResistiveJoints[];
}
