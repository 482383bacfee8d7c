import { describe, expect, it } from '@jest/globals';
import { raisedDays } from './raised-days.js';

describe('days of a component that was touched', () => {
  it('count tenfold since then, for thirty days', () => {
    expect(raisedDays(100, undefined)).toBe(100);
    expect(raisedDays(100, 31)).toBe(70 + 300);
    expect(raisedDays(10, 35)).toBe(5 + 50);
    expect(raisedDays(10, 40)).toBe(10);
    expect(raisedDays(100, 30)).toBe(70 + 300);
    expect(raisedDays(100, 0)).toBe(100);
  });

  it('never count more than since it was last proven', () => {
    expect(raisedDays(4, 20)).toBe(40);
  });
});
