import { describe, expect, it } from '@jest/globals';
import { Calendar } from './calendar.js';

describe('Calendar', () => {
  const calendar = new Calendar(new Date('2026-03-30T10:00:00Z'));

  it('takes times as the site’s own, also across a change of the clock', () => {
    expect(calendar.at(0, '08:00', 'Europe/Berlin')).toBe('2026-03-30T06:00:00.000Z');
    expect(calendar.at(2, '08:00', 'Europe/Berlin')).toBe('2026-03-28T07:00:00.000Z');
    expect(calendar.at(2, '08:00', 'Europe/Berlin', 90)).toBe('2026-03-28T08:30:00.000Z');
  });

  it('never dates anything in the future', () => {
    expect(calendar.at(0, '23:00', 'Etc/UTC')).toBe('2026-03-30T10:00:00.000Z');
    expect(calendar.at(0, undefined, 'Etc/UTC')).toBe('2026-03-30T10:00:00.000Z');
  });

  it('counts days in the site’s calendar', () => {
    expect(calendar.day(1, 'Etc/UTC')).toBe('2026-03-29');
    expect(calendar.day(-3, 'Etc/UTC')).toBe('2026-04-02');
    expect(calendar.day(0, 'Pacific/Kiritimati')).toBe('2026-03-31');
  });
});
