import { describe, expect, it } from '@jest/globals';
import { SAME_ADDRESS, waitSeconds } from './sign-in-delay.js';

const at = (seconds: number) => new Date(Date.UTC(2026, 2, 2) + seconds * 1000);

describe('waitSeconds', () => {
  it('asks nobody to wait for a slip or two', () => {
    expect(waitSeconds(SAME_ADDRESS, 2, at(0), at(0))).toBe(0);
  });

  it('doubles with each further failure, up to a quarter of an hour', () => {
    const waits = [3, 4, 5, 11, 12, 1000].map((n) => waitSeconds(SAME_ADDRESS, n, at(0), at(0)));
    expect(waits).toEqual([2, 4, 8, 512, 900, 900]);
  });

  it('is over when its time has passed', () => {
    expect(waitSeconds(SAME_ADDRESS, 5, at(0), at(5))).toBe(3);
    expect(waitSeconds(SAME_ADDRESS, 5, at(0), at(8))).toBe(0);
    expect(waitSeconds(SAME_ADDRESS, 1000, at(0), at(900))).toBe(0);
  });
});
