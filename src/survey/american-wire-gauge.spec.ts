import { describe, expect, it } from '@jest/globals';
import { gaugeDiameterMillimetres, gaugeOhmsPerKm } from './american-wire-gauge.js';

const FEET_PER_KM = 1000 / 0.3048;

describe('AWG by ASTM B258', () => {
  // ASTM B258, copper 1/58 ohm·mm²/m (read; recomputed).
  it.each([
    [18, 6.385],
    [22, 16.14],
  ])('AWG %d has %d ohm per 1000 ft', (gauge, ohmsPerThousandFeet) => {
    const digits = ohmsPerThousandFeet < 10 ? 3 : 2;
    expect((gaugeOhmsPerKm(gauge) / FEET_PER_KM) * 1000).toBeCloseTo(ohmsPerThousandFeet, digits);
  });

  it('is anchored at 36 and 4/0', () => {
    expect(gaugeDiameterMillimetres(36)).toBe(0.127);
    expect(gaugeDiameterMillimetres(-3)).toBeCloseTo(11.684, 9);
  });

  it.each([-4, 41, 18.5, Number.NaN])('refuses gauge %p', (gauge) => {
    expect(() => gaugeOhmsPerKm(gauge)).toThrow('gauge: must be a whole number');
  });
});
