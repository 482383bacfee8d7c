import { describe, expect, it } from '@jest/globals';
import { reliabilityCurve } from './reliability-curve.js';

/** A generator that walks evenly over [0, 1): each stated probability is met almost exactly. */
function even(): () => number {
  let state = 0;
  return () => (state = (state + 0.61803398875) % 1);
}

const forecasts = (stated: number, trues: number, count: number) =>
  Array.from({ length: count }, (_, i) => ({ stated, cameTrue: i < trues }));

describe('reliability curve', () => {
  const options = { resamples: 100, coverage: 0.9 };

  it('pools a step that falls', () => {
    const given = [...forecasts(0.6, 4, 10), ...forecasts(0.2, 6, 10), ...forecasts(0.9, 9, 10)];
    const curve = reliabilityCurve(given, { ...options, random: even() });
    expect(curve.map(({ stated }) => stated)).toEqual([0.2, 0.6, 0.9]);
    expect(curve.map(({ observed }) => observed)).toEqual([0.5, 0.5, 0.9]);
    expect(curve.map(({ count }) => count)).toEqual([10, 10, 10]);
  });

  it('has a band around what was stated, which is never crossed by a certainty', () => {
    const given = [...forecasts(0, 0, 5), ...forecasts(0.5, 30, 60), ...forecasts(1, 5, 5)];
    const [never, half, always] = reliabilityCurve(given, { ...options, random: even() });
    expect([never?.low, never?.high, always?.low, always?.high]).toEqual([0, 0, 1, 1]);
    expect(half?.low).toBeLessThanOrEqual(0.5);
    expect(half?.high).toBeGreaterThanOrEqual(0.5);
  });

  it('answers nothing for nothing', () => {
    expect(reliabilityCurve([], { ...options, random: even() })).toEqual([]);
  });

  it('names what cannot be', () => {
    const random = even();
    expect(() => reliabilityCurve(forecasts(1.2, 0, 1), { ...options, random })).toThrow(
      'forecasts/0/stated',
    );
    expect(() => reliabilityCurve([], { random, resamples: 0, coverage: 0.9 })).toThrow(
      'resamples',
    );
    expect(() => reliabilityCurve([], { random, resamples: 9, coverage: 2 })).toThrow('coverage');
  });
});
