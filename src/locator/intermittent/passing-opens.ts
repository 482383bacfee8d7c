import type { SpanMode } from '../../plan/modes.js';
import type { System } from '../sweep/system.js';
import type { Felt } from './passing-sweeps.js';

/** Opens that no function can tell apart: what they leave of a feed. */
export interface PassingOpen {
  readonly modes: readonly SpanMode[];
  /** The class of feed behind it while it is open, by the class that arrives there when it is closed. */
  readonly feltFeed: Uint8Array;
  /** Functions that need more reach than this fail behind it while it is open. */
  readonly reachLeft: number;
}

/**
 * Of the modes in which a contact can be open now and closed then. In the default plan three: nothing gets through, only the
 * supply, everything but select.
 */
export function passingOpens({ plan, feedClasses }: System): PassingOpen[] {
  const kinds = new Map<string, { modes: SpanMode[]; feltFeed: Uint8Array }>();
  for (const mode of plan.spanModes) {
    const effect = plan.spanEffects[mode];
    if (effect.removes === 0) continue;
    const feltFeed = Uint8Array.from({ length: feedClasses.count }, (_, feed) =>
      feedClasses.below(effect, feed),
    );
    const kind = kinds.get(feltFeed.join()) ?? { modes: [], feltFeed };
    kind.modes.push(mode);
    kinds.set(feltFeed.join(), kind);
  }
  return [...kinds.values()].map((kind) => ({
    ...kind,
    reachLeft: feedClasses.reach[kind.feltFeed[feedClasses.full] ?? 0] ?? 0,
  }));
}

/** Of an open at the very start of a trunk: below any span it looks the same as with the open there. */
export function feltBehind({ feltFeed, reachLeft }: PassingOpen, { feedClasses }: System): Felt {
  return {
    touches: (_, func) => (feedClasses.reachNeeded[func] ?? 0) > reachLeft,
    feed: (arrives) => feltFeed[arrives] ?? arrives,
    disables: () => 0,
  };
}
