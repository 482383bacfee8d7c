import { type CoreSet, SELECT, SPEECH, SUPPLY } from '../../plan/cores.js';
import {
  SPAN_EFFECTS,
  SPAN_MODES,
  type SpanEffect,
  type SpanMode,
  viewAbove,
} from '../../plan/modes.js';
import { type EffectPairs, effectPairs } from './effect-pairs.js';
import { coresOfClass, DEAD_FEED, FEED_CLASSES, feedClass, REACH, WEAK } from './feed-classes.js';

// A message is a table over the states of a point: (view u, class of feed d). A core whose short is visible from a point
// cannot arrive there: seen at the port it is taken off the feed, and an open that hides it from the port also keeps
// the core from coming down. So of 8 × 7 pairs only 22 are possible, and each rule of section 3 becomes a short list
// of (state above, state below) pairs, made here once by applying the rule to every pair.

export interface States {
  readonly count: number;
  readonly feed: Uint8Array;
  readonly view: Uint8Array;
  /** State of (view, feed class) at view * FEED_CLASSES + feed; -1 where impossible. */
  readonly index: Int8Array;
}

function canArriveWith(view: CoreSet, feed: number): boolean {
  if (view & SUPPLY && feed !== DEAD_FEED) return false;
  const reach = REACH[feed] ?? 0;
  if (view & SPEECH && reach > 1) return false;
  return !(view & SELECT && reach > 2);
}

function listStates(): States {
  const feeds: number[] = [];
  const views: number[] = [];
  const index = new Int8Array(8 * FEED_CLASSES).fill(-1);
  for (let feed = 0; feed < FEED_CLASSES; feed++)
    for (let view = 0; view < 8; view++)
      if (canArriveWith(view, feed)) {
        index[view * FEED_CLASSES + feed] = feeds.length;
        feeds.push(feed);
        views.push(view);
      }
  return {
    count: feeds.length,
    feed: Uint8Array.from(feeds),
    view: Uint8Array.from(views),
    index,
  };
}

export const STATES = listStates();
export const STATE_COUNT = STATES.count;

export function stateOf(view: CoreSet, feed: number): number {
  return STATES.index[view * FEED_CLASSES + feed] ?? -1;
}

/** The class of feed below a component with this effect, given the class above it. */
export function feedBelow(effect: SpanEffect, feed: number): number {
  return feedClass(coresOfClass(feed) & ~effect.removes, WEAK[feed] === 1 || effect.weakens);
}

/** Fault effects that act alike on states are one class; `parted` and `open-return` are the only two that do. */
export interface EffectClasses {
  readonly count: number;
  /** The class of each mode, in the order of SPAN_MODES; and what each class does. */
  readonly ofMode: Uint8Array;
  readonly does: readonly SpanEffect[];
  /**
   * Pairs of states in blocks of equal (effect class, feed above, feed below). Block b holds the pairs from start[b]
   * up to start[b + 1]; ratioCell[b] is feedAbove * FEED_CLASSES + feedBelow.
   */
  readonly blockEffect: Uint8Array;
  readonly ratioCell: Uint8Array;
  readonly start: Uint16Array;
  readonly above: Uint8Array;
  readonly below: Uint8Array;
  /** Those of one effect class are together, from effectStart[effect] on; and the pairs without regard to the class. */
  readonly effectStart: Uint16Array;
  readonly pairs: EffectPairs;
}

interface Block {
  feedAbove: number;
  feedBelow: number;
  pairs: [number, number][];
}

function blocksOf(effect: SpanEffect): Block[] {
  const blocks: Block[] = [];
  for (let feed = 0; feed < FEED_CLASSES; feed++) {
    const below = feedBelow(effect, feed);
    const pairs: [number, number][] = [];
    for (let view = 0; view < 8; view++) {
      const stateAbove = stateOf(viewAbove(effect, view), feed);
      const stateBelow = stateOf(view, below);
      if (stateAbove >= 0 && stateBelow >= 0) pairs.push([stateAbove, stateBelow]);
    }
    if (pairs.length > 0) blocks.push({ feedAbove: feed, feedBelow: below, pairs });
  }
  return blocks;
}

function classifyEffects(
  keyOf: (mode: SpanMode, blocks: readonly Block[]) => string,
): EffectClasses {
  const known = new Map<string, number>();
  const classes: Block[][] = [];
  const does: SpanEffect[] = [];
  const ofMode = SPAN_MODES.map((mode) => {
    const blocks = blocksOf(SPAN_EFFECTS[mode]);
    const key = keyOf(mode, blocks);
    const found = known.get(key);
    if (found !== undefined) return found;
    known.set(key, classes.length);
    does.push(SPAN_EFFECTS[mode]);
    return classes.push(blocks) - 1;
  });
  const flat = classes.flatMap((blocks, effect) => blocks.map((block) => ({ ...block, effect })));
  const above = flat.flatMap((block) => block.pairs.map(([state]) => state));
  const below = flat.flatMap((block) => block.pairs.map(([, state]) => state));
  const ends = flat.map((_, b) => flat.slice(0, b + 1).reduce((n, x) => n + x.pairs.length, 0));
  return {
    count: classes.length,
    ofMode: Uint8Array.from(ofMode),
    does,
    blockEffect: Uint8Array.from(flat, (block) => block.effect),
    ratioCell: Uint8Array.from(flat, (b) => b.feedAbove * FEED_CLASSES + b.feedBelow),
    start: Uint16Array.from([0, ...ends]),
    above: Uint8Array.from(above),
    below: Uint8Array.from(below),
    effectStart: Uint16Array.from([...classes.keys(), classes.length], (effect) =>
      flat.reduce((sum, block) => (block.effect < effect ? sum + block.pairs.length : sum), 0),
    ),
    pairs: effectPairs(above, below, STATE_COUNT),
  };
}

export const EFFECTS = classifyEffects((_, blocks) => JSON.stringify(blocks));

/** Every mode by itself: continuity tells `parted` from `open-return`. */
export const EFFECTS_APART = classifyEffects((mode) => mode);

/** Every (state, state, state of the union of their views) with one feed: how spans join at a node. */
function listUnions() {
  const triples: [number, number, number][] = [];
  for (let a = 0; a < STATE_COUNT; a++)
    for (let b = 0; b < STATE_COUNT; b++) {
      if (STATES.feed[a] !== STATES.feed[b]) continue;
      const union = (STATES.view[a] ?? 0) | (STATES.view[b] ?? 0);
      triples.push([a, b, stateOf(union, STATES.feed[a] ?? 0)]);
    }
  return {
    left: Uint8Array.from(triples, ([a]) => a),
    right: Uint8Array.from(triples, ([, b]) => b),
    union: Uint8Array.from(triples, ([, , c]) => c),
  };
}

export const UNIONS = listUnions();
