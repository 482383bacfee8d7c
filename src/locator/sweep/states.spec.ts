import { describe, expect, it } from '@jest/globals';
import { ALL_CORES } from '../../plan/cores.js';
import { CORES_NEEDED } from '../../plan/functions.js';
import { SPAN_EFFECTS, SPAN_MODES, viewAbove } from '../../plan/modes.js';
import { feedClass, FEED_CLASSES, REACH, REACH_NEEDED } from './feed-classes.js';
import { feedBelow } from './space-shape.js';
import { EFFECTS, STATE_COUNT, stateOf } from './states.js';

const CORE_SETS = Array.from({ length: ALL_CORES + 1 }, (_, cores) => cores);

describe('classes of feeds', () => {
  it('decide every function as the cores do', () => {
    for (const cores of CORE_SETS)
      CORES_NEEDED.forEach((needed, func) => {
        const reaches = (REACH[feedClass(cores, false)] ?? 0) >= (REACH_NEEDED[func] ?? 0);
        expect(reaches).toBe((cores & needed) === needed);
      });
  });

  it('go on to the same class whichever feed of a class meets a fault', () => {
    for (const mode of SPAN_MODES)
      for (const cores of CORE_SETS)
        for (const weak of [false, true]) {
          const effect = SPAN_EFFECTS[mode];
          const next = feedClass(cores & ~effect.removes, weak || effect.weakens);
          expect(feedBelow(effect, feedClass(cores, weak))).toBe(next);
        }
  });
});

describe('states', () => {
  it('leave out only what cannot be, and nothing possible leads there', () => {
    expect(STATE_COUNT).toBe(22);
    // Start at the port with every view, go down through every sequence of modes that gives that view: each pair met
    // must be a state.
    const met = new Set<number>();
    for (let below = 0; below < 8; below++)
      for (const first of SPAN_MODES)
        for (const second of SPAN_MODES) {
          const middle = viewAbove(SPAN_EFFECTS[second], below);
          const top = viewAbove(SPAN_EFFECTS[first], middle);
          const start = feedClass(ALL_CORES & ~top, false);
          const between = feedBelow(SPAN_EFFECTS[first], start);
          const end = feedBelow(SPAN_EFFECTS[second], between);
          for (const [view, feed] of [
            [top, start],
            [middle, between],
            [below, end],
          ] as const) {
            expect(stateOf(view, feed)).toBeGreaterThanOrEqual(0);
            met.add(stateOf(view, feed));
          }
        }
    expect(met.size).toBe(STATE_COUNT);
    expect(FEED_CLASSES).toBe(7);
  });

  it('merge parted with open-return and no other two modes', () => {
    const classes = SPAN_MODES.map((_, m) => EFFECTS.ofMode[m]);
    expect(new Set(classes).size).toBe(SPAN_MODES.length - 1);
    expect(classes[SPAN_MODES.indexOf('parted')]).toBe(classes[SPAN_MODES.indexOf('open-return')]);
  });
});
