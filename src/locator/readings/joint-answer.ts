import type { Place } from '../../drawing/drawn-node.js';
import type { ComponentName } from '../posterior/locate-result.js';

/** One place where a bad joint in the supply pair may be. */
export interface JointCandidateAnswer {
  place: Extract<Place, { kind: 'span' }>;
  component: ComponentName;
  probability: number;
  /** Of the joint if it is here: median and 90 % interval. */
  ohms: { median: number; low: number; high: number };
}

/** What the voltages read on one trunk say together about a bad joint; the chances sum to one. */
export interface ResistiveJoints {
  trunk: string;
  /** Most probable first; equals by id. */
  candidates: JointCandidateAnswer[];
  /** The supply arrives in full wherever it was read. */
  noJoint: number;
  /** Everything else: a dead supply, several bad joints, spans that are not among the candidates. */
  notCovered: number;
}
