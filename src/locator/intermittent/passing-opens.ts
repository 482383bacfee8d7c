import { type SpanMode, SPAN_EFFECTS, SPAN_MODES } from '../../plan/modes.js';
import { FEED_CLASSES, FULL_FEED, REACH } from '../sweep/feed-classes.js';
import { feedBelow } from '../sweep/space-shape.js';

/** Modes in which a contact can be open now and closed then. */
export const PASSING_MODES: readonly SpanMode[] = SPAN_MODES.filter(
  (mode) => SPAN_EFFECTS[mode].removes !== 0,
);

/** Opens that no function can tell apart: what they leave of a feed. */
export interface PassingOpen {
  readonly modes: readonly SpanMode[];
  /** The class of feed behind it while it is open, by the class that arrives there when it is closed. */
  readonly feltFeed: Uint8Array;
  /** Functions that need more reach than this fail behind it while it is open. */
  readonly reachLeft: number;
}

function passingOpens(): PassingOpen[] {
  const kinds = new Map<string, { modes: SpanMode[]; feltFeed: Uint8Array }>();
  for (const mode of PASSING_MODES) {
    const feltFeed = Uint8Array.from({ length: FEED_CLASSES }, (_, feed) =>
      feedBelow(SPAN_EFFECTS[mode], feed),
    );
    const kind = kinds.get(feltFeed.join()) ?? { modes: [], feltFeed };
    kind.modes.push(mode);
    kinds.set(feltFeed.join(), kind);
  }
  return [...kinds.values()].map((kind) => ({
    ...kind,
    reachLeft: REACH[kind.feltFeed[FULL_FEED] ?? 0] ?? 0,
  }));
}

/** Three: nothing gets through, only the supply, everything but select. */
export const PASSING_OPENS: readonly PassingOpen[] = passingOpens();
