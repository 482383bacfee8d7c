import { describe, expect, it } from '@jest/globals';

import { closedByDay, refuseClosedTime } from './closed-time.js';
import { publicHolidays, refuseRegion } from './public-holidays.js';

describe('closed times', () => {
  it('are closed days, each with the first cause', () => {
    const fair = {
      from: '2026-05-01',
      until: '2026-05-03',
      name: 'Fair',
      why: 'closed-day',
    } as const;
    const day = {
      from: '2026-05-01',
      until: '2026-05-02',
      name: 'Labour Day',
      why: 'public-holiday',
    } as const;
    expect(closedByDay([day, fair])).toEqual({
      '2026-05-01': { why: 'public-holiday', name: 'Labour Day' },
      '2026-05-02': { why: 'closed-day', name: 'Fair' },
    });
    expect(refuseClosedTime({ ...fair, until: '2026-05-01' })).toMatch(/ends before/);
    expect(refuseClosedTime({ ...fair, until: '2029-05-01' })).toMatch(/longer than 400/);
    expect(refuseClosedTime(fair)).toBeNull();
  });
});

describe('public holidays', () => {
  // Easter 2026 is 5 April; Germany’s public holidays by state are law (memory, no source opened).
  it('are those of a country, and more in a part of it', () => {
    const whole = publicHolidays({ country: 'DE', region: null }, 2026, 2026);
    const days = whole.map(({ from }) => from);
    expect(days).toEqual(
      expect.arrayContaining(['2026-01-01', '2026-04-03', '2026-04-06', '2026-12-25']),
    );
    expect(days).not.toContain('2026-01-06');
    const part = publicHolidays({ country: 'DE', region: 'BY' }, 2026, 2027);
    expect(part.map(({ from }) => from)).toEqual(
      expect.arrayContaining(['2026-01-06', '2027-01-06']),
    );
    expect(
      whole.every(({ from, until }) => refuseClosedTime({ from, until, name: '' }) === null),
    ).toBe(true);
  });

  it('are of a country and a part that there are', () => {
    expect(refuseRegion({ country: 'DE', region: null })).toBeNull();
    expect(refuseRegion({ country: 'DE', region: 'BY/A' })).toBeNull();
    expect(refuseRegion({ country: 'QQ', region: null })).toMatchObject({ field: 'country' });
    expect(refuseRegion({ country: 'DE', region: 'QQ' })).toMatchObject({ field: 'region' });
    expect(refuseRegion({ country: 'DE', region: 'BY/QQ' })).toMatchObject({
      field: 'region',
    });
  });
});
