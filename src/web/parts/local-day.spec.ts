import { describe, expect, it } from '@jest/globals';
import { localDay } from './local-day.js';

describe('localDay', () => {
  it('goes by the clock on the wall, not by that of Greenwich', () => {
    const late = new Date(2026, 2, 28, 23, 59);
    const early = new Date(2026, 2, 28, 0, 1);
    expect([localDay(late), localDay(early)]).toEqual(['2026-03-28', '2026-03-28']);
    expect([localDay(late, 1), localDay(early, 4), localDay(early, -28)]).toEqual([
      '2026-03-29',
      '2026-04-01',
      '2026-02-28',
    ]);
  });
});
