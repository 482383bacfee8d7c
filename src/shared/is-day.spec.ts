import { describe, expect, it } from '@jest/globals';
import { isDay } from './is-day.js';

describe('isDay', () => {
  it.each(['2026-05-04', '2024-02-29', '1999-12-31'])('takes %s', (day) => {
    expect(isDay(day)).toBe(true);
  });

  it.each([
    '2026-02-29',
    '2026-13-01',
    '2026-5-4',
    '04.05.2026',
    '2026-05-04T08:00:00Z',
    '20260504',
    '',
    20260504,
    null,
  ])('refuses %j', (day) => {
    expect(isDay(day)).toBe(false);
  });
});
