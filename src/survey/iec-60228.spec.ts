import { describe, expect, it } from '@jest/globals';
import { ConductorClass, IEC_SIZES, maximumOhmsPerKm } from './iec-60228.js';

// IEC 60228:2004, maximum d.c. resistance at 20 °C, plain annealed copper (read, reproduction).
const READ = [
  [0.5, 36.0, 39.0],
  [0.75, 24.5, 26.0],
  [1.0, 18.1, 19.5],
  [1.5, 12.1, 13.3],
  [2.5, 7.41, 7.98],
  [4, 4.61, 4.95],
] as const;

describe('IEC 60228 maximum resistance', () => {
  it.each(READ)('%d mm²: %d ohm/km in classes 1 and 2, %d in class 5', (size, fixed, flexible) => {
    expect(maximumOhmsPerKm(size, 1)).toBe(fixed);
    expect(maximumOhmsPerKm(size, 2)).toBe(fixed);
    expect(maximumOhmsPerKm(size, 5)).toBe(flexible);
  });

  it.each([1, 2, 5] as const)('falls with size in class %d', (conductorClass) => {
    const ohms = IEC_SIZES.map((size) => maximumOhmsPerKm(size, conductorClass));
    expect(ohms).toEqual([...ohms].sort((a, b) => b - a));
    expect(new Set(ohms).size).toBe(IEC_SIZES.length);
  });

  it('refuses a size or class that it does not have', () => {
    expect(() => maximumOhmsPerKm(1.2, 2)).toThrow('1.2 mm² of class 2 is not in the table');
    expect(() => maximumOhmsPerKm(1, 3 as ConductorClass)).toThrow('class 3 is not in the table');
  });
});
