import { describe, expect, it } from '@jest/globals';
import { murrayMetres, varleyOhms } from './loop-bridge.js';

// V. K. Mehta, R. Mehta, Principles of Power System, 4th ed., ch. 11 (read, recomputed).
describe('Murray', () => {
  it('11.21 p. 296: P 45, Q 15 ohm, 300 m and an equal sound core: 150 m', () => {
    expect(murrayMetres(45, 15, 600)).toBe(150);
  });

  it('11.22 p. 297: 3:1, 500 m: 250 m', () => {
    expect(murrayMetres(3, 1, 1000)).toBe(250);
  });

  it('refuses arms that make no bridge', () => {
    expect(() => murrayMetres(45, 0, 600)).toThrow('ohmsQ');
    expect(() => murrayMetres(45, 15, Number.NaN)).toThrow('loopMetres');
  });
});

describe('Varley', () => {
  it('11.24 p. 297: equal arms, S 200 ohm, 20 ohm/km, 20 km + 20 km: 15 km', () => {
    expect(varleyOhms(10, 10, 200, 20 * 40) / 20).toBe(15);
  });

  it('balances the bridge with unequal arms', () => {
    const ohms = varleyOhms(10, 100, 30, 40);
    expect(10 * (ohms + 30)).toBeCloseTo(100 * (40 - ohms), 9);
  });

  it('refuses an S beyond the loop', () => {
    expect(() => varleyOhms(10, 10, 801, 800)).toThrow('ohmsS: 801 ohm balances no fault');
  });
});
