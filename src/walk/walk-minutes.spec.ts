import { describe, expect, it } from '@jest/globals';
import { WalkSpot, walkMinutes } from './walk-minutes.js';

const pace = { metresPerMinute: 60, minutesPerFloor: 0.5 };
const cable = (from: number, to: number) => 30 * Math.abs(from - to);

describe('minutes to walk', () => {
  it('takes positions where both spots have one, else cable', () => {
    const spots: WalkSpot[] = [
      { floor: 0, accessMinutes: 0, position: { eastMetres: 0, northMetres: 0 } },
      { floor: 0, accessMinutes: 2, position: { eastMetres: 30, northMetres: 40 } },
      { floor: 2, accessMinutes: 0 },
    ];
    expect(walkMinutes(spots, pace, cable)).toEqual([
      [0, 50 / 60 + 2, 2],
      [50 / 60, 0, 1.5],
      [2, 3.5, 0],
    ]);
  });

  it('refuses a pace or a length that cannot be', () => {
    const spots = [
      { floor: 0, accessMinutes: 0 },
      { floor: 0, accessMinutes: 0 },
    ];
    expect(() => walkMinutes(spots, { ...pace, metresPerMinute: 0 }, cable)).toThrow(
      'metresPerMinute',
    );
    expect(() => walkMinutes(spots, pace, () => Number.NaN)).toThrow('spots/1');
  });
});
