import { describe, expect, it } from '@jest/globals';
import { ALL_CORES } from '../../plan/cores.js';
import { viewAbove } from '../../plan/modes.js';
import { systemOf } from './system.js';

const { plan, feedClasses, states, effects: EFFECTS, stateOf } = systemOf();
const { spanModes: SPAN_MODES, spanEffects: SPAN_EFFECTS } = plan;

const CORE_SETS = Array.from({ length: ALL_CORES + 1 }, (_, cores) => cores);

describe('classes of feeds', () => {
  it('decide every function as the cores do', () => {
    for (const cores of CORE_SETS)
      plan.coresNeeded.forEach((needed, func) => {
        const reaches =
          (feedClasses.reach[feedClasses.of(cores, false)] ?? 0) >=
          (feedClasses.reachNeeded[func] ?? 0);
        expect(reaches).toBe((cores & needed) === needed);
      });
  });

  it('go on to the same class whichever feed of a class meets a fault', () => {
    for (const mode of SPAN_MODES)
      for (const cores of CORE_SETS)
        for (const weak of [false, true]) {
          const effect = SPAN_EFFECTS[mode];
          const next = feedClasses.of(cores & ~effect.removes, weak || effect.weakens);
          expect(feedClasses.below(effect, feedClasses.of(cores, weak))).toBe(next);
        }
  });
});

describe('states', () => {
  it('leave out only what cannot be, and nothing possible leads there', () => {
    expect(states.count).toBe(22);
    // Start at the port with every view, go down through every sequence of modes that gives that view: each pair met
    // must be a state.
    const met = new Set<number>();
    for (let below = 0; below < 8; below++)
      for (const first of SPAN_MODES)
        for (const second of SPAN_MODES) {
          const middle = viewAbove(SPAN_EFFECTS[second], below);
          const top = viewAbove(SPAN_EFFECTS[first], middle);
          const start = feedClasses.of(ALL_CORES & ~top, false);
          const between = feedClasses.below(SPAN_EFFECTS[first], start);
          const end = feedClasses.below(SPAN_EFFECTS[second], between);
          for (const [view, feed] of [
            [top, start],
            [middle, between],
            [below, end],
          ] as const) {
            expect(stateOf(view, feed)).toBeGreaterThanOrEqual(0);
            met.add(stateOf(view, feed));
          }
        }
    expect(met.size).toBe(states.count);
    expect(feedClasses.count).toBe(7);
  });

  it('merge parted with open-return and no other two modes', () => {
    const classes = SPAN_MODES.map((_, m) => EFFECTS.ofMode[m]);
    expect(new Set(classes).size).toBe(SPAN_MODES.length - 1);
    expect(classes[SPAN_MODES.indexOf('parted')]).toBe(classes[SPAN_MODES.indexOf('open-return')]);
  });
});
