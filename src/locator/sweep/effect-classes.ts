import type { SpanEffect, SpanMode } from '../../plan/modes.js';
import type { PlanTables } from '../../plan/plan-tables.js';
import { type EffectPairs, effectPairs } from './effect-pairs.js';

/** Fault effects that act alike on states are one class; `parted` and `open-return` are the only two that do. */
export interface EffectClasses {
  readonly count: number;
  /** The class of each mode, in the plan's order; and what each class does. */
  readonly ofMode: Uint8Array;
  readonly does: readonly SpanEffect[];
  /** The feed of each state, and how many feeds there are. */
  readonly feed: Uint16Array;
  readonly feeds: number;
  /**
   * Pairs of states in blocks of equal (effect class, feed above, feed below). Block b holds the pairs from start[b]
   * up to start[b + 1]; ratioCell[b] is feedAbove * feeds + feedBelow.
   */
  readonly blockEffect: Uint8Array;
  readonly ratioCell: Uint32Array;
  readonly start: Uint32Array;
  readonly above: Uint16Array;
  readonly below: Uint16Array;
  /** Those of one effect class are together, from effectStart[effect] on; and the pairs without regard to the class. */
  readonly effectStart: Uint32Array;
  readonly pairs: EffectPairs;
}

/** The pairs of states above and below one effect, where the feeds above and below are these. */
export interface Block {
  readonly feedAbove: number;
  readonly feedBelow: number;
  readonly pairs: readonly (readonly [above: number, below: number])[];
}

/** The starts of lists that lie behind each other, and the end of the last. */
function startsOf(lengths: readonly number[]): Uint32Array {
  const starts = new Uint32Array(lengths.length + 1);
  lengths.forEach((length, i) => (starts[i + 1] = (starts[i] ?? 0) + length));
  return starts;
}

/** Modes that `isOne` gives one key to are one class. */
export function classifyEffects(
  { feed, feeds }: Pick<EffectClasses, 'feed' | 'feeds'>,
  { spanModes, spanEffects }: PlanTables,
  blocksOf: (effect: SpanEffect) => readonly Block[],
  keyOf: (mode: SpanMode, blocks: readonly Block[]) => string,
): EffectClasses {
  const known = new Map<string, number>();
  const classes: (readonly Block[])[] = [];
  const does: SpanEffect[] = [];
  const ofMode = spanModes.map((mode) => {
    const blocks = blocksOf(spanEffects[mode]);
    const key = keyOf(mode, blocks);
    const found = known.get(key);
    if (found !== undefined) return found;
    known.set(key, classes.length);
    does.push(spanEffects[mode]);
    return classes.push(blocks) - 1;
  });
  const flat = classes.flatMap((blocks, effect) => blocks.map((block) => ({ ...block, effect })));
  const pairs = flat.flatMap((block) => block.pairs);
  const above = Uint16Array.from(pairs, ([state]) => state);
  const below = Uint16Array.from(pairs, ([, state]) => state);
  const ofEffect = classes.map((blocks) =>
    blocks.reduce((sum, block) => sum + block.pairs.length, 0),
  );
  return {
    count: classes.length,
    ofMode: Uint8Array.from(ofMode),
    does,
    feed,
    feeds,
    blockEffect: Uint8Array.from(flat, (block) => block.effect),
    ratioCell: Uint32Array.from(flat, (b) => b.feedAbove * feeds + b.feedBelow),
    start: startsOf(flat.map((block) => block.pairs.length)),
    above,
    below,
    effectStart: startsOf(ofEffect),
    pairs: effectPairs(above, below, feed.length),
  };
}
