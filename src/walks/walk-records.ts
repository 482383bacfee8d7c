import type { ComponentName, FunctionName, Outcome, Place } from '../locator/index.js';
import type { SEEN } from '../plan/look-errors.js';

export const WALK_RECORD_KINDS = ['heard', 'look', 'step', 'finding', 'mending'] as const;

/** What is written down of how a step ended: each is an entry of the ticket. */
export type WalkRecord =
  | {
      kind: 'heard';
      trunk: string;
      node: string;
      function: FunctionName;
      outcome: Outcome;
      /** All cable that leaves this node was disconnected there meanwhile. */
      disconnectedBelow?: string;
    }
  | { kind: 'look'; place: Place; part: string; group?: string; seen: (typeof SEEN)[number] }
  /** What is no evidence of the locator's: the walk goes by it until the next mending. */
  | { kind: 'step'; check: string; ending: number }
  /** It was at fault there: what it was, and then how it was mended. */
  | { kind: 'finding'; place: Place; component: ComponentName; mode: string | null }
  /** It was made anew, although it had looked sound. */
  | { kind: 'mending' };
