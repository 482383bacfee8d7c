import { describe, expect, it } from '@jest/globals';
import { RETURN, SPEECH, SUPPLY } from '../../plan/cores.js';
import { SPAN_EFFECTS, SPAN_MODES, viewAbove } from '../../plan/modes.js';
import {
  EFFECT_COUNT,
  feedThrough,
  inSeries,
  MODE_EFFECTS,
  viewThrough,
  WEAK_FEED,
} from './run-effects.js';

describe('effects of runs', () => {
  it('of one component are those of the fault model', () => {
    SPAN_MODES.forEach((mode, m) => {
      const effect = MODE_EFFECTS[m]!;
      for (let view = 0; view < 8; view++)
        expect(viewThrough(effect, view)).toBe(viewAbove(SPAN_EFFECTS[mode], view));
      expect(feedThrough(effect, 15)).toBe(
        (15 & ~SPAN_EFFECTS[mode].removes) | (SPAN_EFFECTS[mode].weakens ? WEAK_FEED : 0),
      );
    });
  });

  it('in series act one after the other, for every pair, view and feed', () => {
    let wrong = 0;
    for (let above = 0; above < EFFECT_COUNT; above++)
      for (let below = 0; below < EFFECT_COUNT; below++) {
        const both = inSeries(above, below);
        for (let view = 0; view < 8; view++)
          if (viewThrough(both, view) !== viewThrough(above, viewThrough(below, view))) wrong++;
        for (const feed of [0, 15, WEAK_FEED | SUPPLY, RETURN | SPEECH])
          if (feedThrough(both, feed) !== feedThrough(below, feedThrough(above, feed))) wrong++;
      }
    expect(wrong).toBe(0);
  });
});
