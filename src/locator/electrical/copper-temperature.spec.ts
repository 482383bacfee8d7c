import { describe, expect, it } from '@jest/globals';
import { copperFactor } from './copper-temperature.js';

describe('temperature of copper', () => {
  it('is 1 at 20 °C', () => {
    expect(copperFactor(20)).toBe(1);
  });

  // IEC 60228 Annex B form against the coefficient 0.00393: within 3e-5 at 75 °C (values: read).
  it('agrees with 1 + 0.00393 (t - 20) within 3e-5 at 75 °C', () => {
    const bySlope = 1 / (1 + 0.00393 * 55);
    expect(Math.abs(1 / copperFactor(75) - bySlope)).toBeLessThan(3e-5);
  });

  // Annex A prints 0.980, 0.943, 0.820, which is 250/(230 + t): another form, up to 0.003 away.
  it.each([
    [25, 0.98],
    [35, 0.943],
    [75, 0.82],
  ])('is near but not Annex A at %d °C', (celsius, annexA) => {
    expect(250 / (230 + celsius)).toBeCloseTo(annexA, 3);
    expect(Math.abs(1 / copperFactor(celsius) - annexA)).toBeLessThan(0.003);
  });

  it.each([-234.5, 201, Number.NaN])('refuses %p °C', (celsius) => {
    expect(() => copperFactor(celsius)).toThrow('celsius: must be between');
  });
});
