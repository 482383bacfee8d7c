import { describe, expect, it } from '@jest/globals';

import { ticksTo, wholeTicksTo } from './chart-scale.js';

describe('the marks of an axis', () => {
  it.each<[number, number[]]>([
    [0, [0, 0.2, 0.4, 0.6, 0.8, 1]],
    [1, [0, 0.2, 0.4, 0.6, 0.8, 1]],
    [100, [0, 20, 40, 60, 80, 100]],
    [101, [0, 50, 100, 150]],
    [2400, [0, 500, 1000, 1500, 2000, 2500]],
    [0.3, [0, 0.1, 0.2, 0.3]],
  ])('begin at zero and reach %d', (most, ticks) => {
    expect(ticksTo(most)).toEqual(ticks);
  });

  it('are few, round and never short of it', () => {
    for (let most = 0.001; most < 1e7; most *= 1.37) {
      const ticks = ticksTo(most);
      expect(ticks[0]).toBe(0);
      expect(ticks.at(-1)).toBeGreaterThanOrEqual(most);
      expect(ticks.length).toBeLessThanOrEqual(6);
      expect(ticks.at(-2)).toBeLessThan(most);
    }
  });

  it('of what is counted are whole', () => {
    expect(wholeTicksTo(0)).toEqual([0, 1]);
    expect(wholeTicksTo(1)).toEqual([0, 1]);
    expect(wholeTicksTo(3)).toEqual([0, 1, 2, 3]);
    for (let most = 0; most < 500; most += 1) {
      expect(wholeTicksTo(most).every(Number.isInteger)).toBe(true);
      expect(wholeTicksTo(most).at(-1)).toBeGreaterThanOrEqual(most);
    }
  });
});
