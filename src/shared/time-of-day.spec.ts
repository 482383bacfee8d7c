import { describe, expect, it } from '@jest/globals';
import { minuteOfDay } from './time-of-day.js';

describe('minuteOfDay', () => {
  it.each([
    ['00:00', 0],
    ['08:30', 510],
    ['23:59', 1439],
    ['24:00', 1440],
  ])('%s is minute %d', (time, minute) => {
    expect(minuteOfDay(time)).toBe(minute);
  });

  it.each(['24:01', '25:00', '8:30', '08:60', '08:30:00', ' 08:30', ''])('%p is none', (time) => {
    expect(minuteOfDay(time)).toBeUndefined();
  });
});
