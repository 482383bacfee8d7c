import { describe, expect, it } from '@jest/globals';
import { modeChances } from './mode-chances.js';

describe('competing risks', () => {
  it('share what is not ok by their rates', () => {
    const { ok, modes } = modeChances([0.3, 0.1], 2);
    expect(ok).toBeCloseTo(Math.exp(-0.8), 15);
    expect(modes[0]).toBeCloseTo((1 - Math.exp(-0.8)) * 0.75, 15);
    expect(modes[1]).toBeCloseTo((1 - Math.exp(-0.8)) * 0.25, 15);
  });

  it('keep all digits of a chance that is nearly 0', () => {
    // 1 - exp(-x) = x - x²/2 + …, here exact to the last digit: 1 - Math.exp would lose four of them.
    expect(modeChances([1e-12], 1).modes[0]).toBe(1e-12 - 5e-25);
  });

  it('are certain without rates or without time', () => {
    expect(modeChances([0, 0], 5)).toEqual({ ok: 1, modes: new Float64Array(2) });
    expect(modeChances([3, 4], 0)).toEqual({ ok: 1, modes: new Float64Array(2) });
  });
});
