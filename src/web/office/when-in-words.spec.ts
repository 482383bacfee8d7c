import { describe, expect, it } from '@jest/globals';
import { dayInWords, instantInWords, nextVisitInWords } from './when-in-words.js';

describe('days in words', () => {
  it('are the same day wherever they are read', () => {
    expect(dayInWords('2026-03-09')).toBe('Monday 9 March 2026');
    expect(dayInWords('2028-02-29')).toBe('Tuesday 29 February 2028');
  });

  it('are told by the clocks of the site', () => {
    const instant = '2026-03-09T23:30:00.000Z';
    expect(instantInWords(instant, 'Europe/Berlin')).toBe('10 Mar 2026, 00:30');
    expect(instantInWords(instant, 'Etc/UTC')).toBe('9 Mar 2026, 23:30');
  });

  it('say when somebody is due, or that nobody knows yet', () => {
    expect(nextVisitInWords({ on: '2026-03-09', kind: 'call-out' })).toBe(
      'Somebody is due on Monday 9 March 2026 (a call-out).',
    );
    expect(nextVisitInWords(null)).toMatch(/^No visit is set yet/);
  });
});
