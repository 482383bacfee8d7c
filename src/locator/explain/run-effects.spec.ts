import { describe, expect, it } from '@jest/globals';
import { RETURN, SUPPLY } from '../../plan/cores.js';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { viewAbove } from '../../plan/modes.js';
import { tablesOf } from '../../plan/plan-tables.js';
import {
  bits,
  EFFECT_COUNT,
  feedThrough,
  inSeries,
  viewThrough,
  WEAK_FEED,
} from './run-effects.js';

describe('effects of runs', () => {
  it('of one component are those of the fault model', () => {
    Object.values(tablesOf(DEFAULT_PLAN).spanEffects).forEach((does) => {
      const effect = bits(does);
      for (let view = 0; view < 8; view++)
        expect(viewThrough(effect, view)).toBe(viewAbove(does, view));
      expect(feedThrough(effect, 15)).toBe((15 & ~does.removes) | (does.weakens ? WEAK_FEED : 0));
    });
  });

  it('in series act one after the other, for every pair, view and feed', () => {
    let wrong = 0;
    for (let above = 0; above < EFFECT_COUNT; above++)
      for (let below = 0; below < EFFECT_COUNT; below++) {
        const both = inSeries(above, below);
        for (let view = 0; view < 8; view++)
          if (viewThrough(both, view) !== viewThrough(above, viewThrough(below, view))) wrong++;
        for (const feed of [0, 15, WEAK_FEED | SUPPLY, RETURN | 2])
          if (feedThrough(both, feed) !== feedThrough(below, feedThrough(above, feed))) wrong++;
      }
    expect(wrong).toBe(0);
  });
});
