import { describe, expect, it } from '@jest/globals';
import { atSite, shortDay, since } from './time-words.js';

describe('since', () => {
  it('tells minutes, hours and days', () => {
    const now = new Date('2026-03-09T12:00:00Z');
    const told = ['11:55', '11:00', '08:40', '12:30'].map((at) =>
      since(`2026-03-09T${at}:00Z`, now),
    );
    expect(told).toEqual(['5 min', '1 h', '3 h 20 min', '0 min']);
    expect(since('2026-03-08T11:00:00Z', now)).toBe('1 day');
    expect(since('2026-03-01T11:00:00Z', now)).toBe('8 days');
  });
});

describe('atSite', () => {
  it('goes by the clocks of the site, a day by none', () => {
    expect(atSite('2026-03-09T23:30:00Z', 'Asia/Tokyo')).toBe('10 Mar, 08:30');
    expect(shortDay('2026-03-09')).toBe('Mon 9 Mar');
  });
});
