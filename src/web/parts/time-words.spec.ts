import { describe, expect, it } from '@jest/globals';
import { atSite, longDay, shortDay, since } from './time-words.js';

describe('since', () => {
  it('tells minutes, hours and days', () => {
    const now = new Date('2026-03-09T12:00:00Z');
    const told = ['11:55', '11:00', '08:40', '12:30'].map((at) =>
      since(`2026-03-09T${at}:00Z`, now),
    );
    expect(told).toEqual(['5 mins', '1 hr', '3 hrs 20 mins', '< 1 min']);
    expect(since('2026-03-08T11:00:00Z', now)).toBe('1 day');
    expect(since('2026-03-01T11:00:00Z', now)).toBe('8 days');
  });
});

describe('in the other languages', () => {
  it('writes times as they are written there', () => {
    const now = new Date('2026-03-09T12:00:00Z');
    const told = ['fr', 'es', 'hi'].map((locale) =>
      [
        since('2026-03-09T08:40:00Z', now, locale),
        since('2026-03-01T11:00:00Z', now, locale),
        shortDay('2026-03-09', locale, now),
        shortDay('2025-12-31', locale, now),
      ].map((words) => words.replaceAll(/\s/g, ' ')),
    );
    expect(told).toEqual([
      ['3 h 20 min', '8 jours', 'lun. 9 mars', 'mer. 31 déc. 2025'],
      ['3 h 20 min', '8 días', 'lun 9 mar', 'mié 31 dic 2025'],
      ['3 घं॰ 20 मि॰', '8 दिन', 'सोम 9 मार्च', 'बुध 31 दिस॰ 2025'],
    ]);
  });
});

describe('atSite', () => {
  it('goes by the clocks of the site, a day by none', () => {
    const now = new Date('2026-06-01T12:00:00Z');
    expect(atSite('2026-03-09T23:30:00Z', 'Asia/Tokyo', now)).toBe('10 Mar, 08:30');
    expect(shortDay('2026-03-09', 'en-GB', now)).toBe('Mon 9 Mar');
  });

  it('tells the year where it is not the present one by the same clock', () => {
    const now = new Date('2026-12-31T20:00:00Z');
    expect(atSite('2025-03-09T23:30:00Z', 'Asia/Tokyo', now)).toBe('10 Mar 2025, 08:30');
    // In Tokyo it is 2027 already.
    expect(atSite('2026-12-31T19:00:00Z', 'Asia/Tokyo', now)).toBe('1 Jan, 04:00');
    expect(atSite('2026-12-31T19:00:00Z', 'UTC', now)).toBe('31 Dec, 19:00');
    expect(atSite('2026-12-31T19:00:00Z', 'Asia/Tokyo', new Date('2026-06-01'))).toBe(
      '1 Jan 2027, 04:00',
    );
    // Of a day it is the reader's own year, wherever that is.
    const evening = new Date(2026, 11, 31, 20);
    expect(shortDay('2027-01-04', 'en-GB', evening)).toBe('Mon 4 Jan 2027');
    expect(longDay('2026-03-09')).toBe('Mon 9 Mar 2026');
  });
});
