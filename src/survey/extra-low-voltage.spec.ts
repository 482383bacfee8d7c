import { describe, expect, it } from '@jest/globals';
import { exceedsExtraLowVoltage } from './extra-low-voltage.js';

describe('separated extra-low voltage', () => {
  // IEV, from IEC 61558-1 (read): not above 50 V a.c. r.m.s. or 120 V ripple-free d.c.
  it('ends at 50 V a.c. and 120 V d.c.', () => {
    expect([50, 50.1].map((volts) => exceedsExtraLowVoltage(volts, 'ac'))).toEqual([false, true]);
    expect([120, 121].map((volts) => exceedsExtraLowVoltage(volts, 'dc'))).toEqual([false, true]);
  });

  it('does not hold 70 V and 100 V loudspeaker lines', () => {
    expect(exceedsExtraLowVoltage(70, 'ac') && exceedsExtraLowVoltage(100, 'ac')).toBe(true);
    expect(() => exceedsExtraLowVoltage(Number.NaN, 'dc')).toThrow('volts');
  });
});
