import type { Place } from '../../drawing/drawn-node.js';
import type { ComponentName } from '../posterior/locate-result.js';

/** One faulty component. */
export interface WorldFault {
  place: Place;
  component: ComponentName;
  /** By the names of the rate tables. */
  mode: string;
}

/**
 * What may be the matter: exactly these faults make a difference to what was said. Everything else is ok, or faulty in a
 * way that makes none (behind an open that hides it, past the last room that somebody spoke of, in a function that nobody
 * spoke of), which is summed out. No two worlds overlap.
 */
export interface ProbableWorld {
  /** By place; none: whatever is the matter, nothing that was said is due to it. */
  faults: readonly WorldFault[];
  /** log P(this world, evidence), complaints of nothing made as rare as they are. */
  logWeight: number;
  /** P(this world | evidence). */
  probability: number;
}

export interface ProbableWorlds {
  /** Natural logarithm of P(evidence), exact, from the sweeps, as `locate` answers it. */
  logEvidence: number;
  /** Most probable first; equals by place. */
  worlds: ProbableWorld[];
  /** P(none of these | evidence). */
  uncovered: number;
}
