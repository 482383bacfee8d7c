import { describe, expect, it } from '@jest/globals';
import { CoreResistance } from './core-resistance.js';
import { distanceToShort, LoopReading } from './distance-to-short.js';

const measured: CoreResistance = { ohmsPerKmAt20: 18, figure: 'measured' };
const reading: LoopReading = {
  loopOhms: 3.7,
  uncertaintyOhms: 0,
  contactOhms: 0.1,
  uncertaintyContactOhms: 0,
  celsius: 20,
  uncertaintyCelsius: 0,
  uncertaintyCoreShare: 0,
};

describe('distance to a short', () => {
  it('is (R - contact) over the loop ohms per metre', () => {
    const exact = distanceToShort(measured, reading);
    expect(exact.metres).toBeCloseTo(100, 12);
    expect([exact.lowMetres, exact.highMetres]).toEqual([exact.metres, exact.metres]);
    expect(exact.isBiasedShort).toBe(false);
  });

  it('is nearer in a warm cable', () => {
    expect(distanceToShort(measured, { ...reading, celsius: 40 }).metres).toBeCloseTo(
      (100 * 254.5) / 274.5,
      12,
    );
  });

  it('adds the uncertainties in quadrature', () => {
    const one = (uncertain: Partial<LoopReading>) =>
      distanceToShort(measured, { ...reading, ...uncertain }).uncertaintyMetres;
    const meter = one({ uncertaintyOhms: 0.036 });
    const contact = one({ uncertaintyContactOhms: 0.072 });
    const core = one({ uncertaintyCoreShare: 0.02 });
    const warmth = one({ uncertaintyCelsius: 5.09 });
    expect([meter, contact, core, warmth].map((u) => Number(u.toFixed(9)))).toEqual([1, 2, 2, 2]);
    const all = one({
      uncertaintyOhms: 0.036,
      uncertaintyContactOhms: 0.072,
      uncertaintyCoreShare: 0.02,
      uncertaintyCelsius: 5.09,
    });
    expect(all).toBeCloseTo(Math.sqrt(13), 9);
  });

  it('reaches farther for a maximum, which is biased short', () => {
    const far = distanceToShort({ ...measured, figure: 'maximum' }, reading);
    expect(far.isBiasedShort).toBe(true);
    expect(far.lowMetres).toBeCloseTo(100, 9);
    expect(far.highMetres).toBeCloseTo(100 / 0.9, 9);
  });

  it('puts a short in the head-end at 0 and refuses less than the contact', () => {
    const near = { ...reading, loopOhms: 0.08, uncertaintyOhms: 0.02 };
    expect(distanceToShort(measured, near)).toMatchObject({ metres: 0, lowMetres: 0 });
    expect(() => distanceToShort(measured, { ...reading, loopOhms: 0.05 })).toThrow(
      'loopOhms: is less than the contact alone',
    );
    expect(() => distanceToShort(measured, { ...reading, uncertaintyOhms: Number.NaN })).toThrow(
      'uncertaintyOhms',
    );
  });
});
