import { describe, expect, it } from '@jest/globals';

import { closedByDay, refuseClosedTime } from './closed-time.js';
import { publicHolidays, refuseRegion } from './public-holidays.js';
import { readCalendar } from './read-calendar.js';

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

describe('an imported calendar', () => {
  const calendar = (...lines: string[]) =>
    [
      'BEGIN:VCALENDAR',
      'VERSION:2.0',
      'PRODID:-//x//y//EN',
      'BEGIN:VEVENT',
      'UID:1',
      'DTSTAMP:19970101T000000Z',
      ...lines,
      'END:VEVENT',
      'END:VCALENDAR',
    ].join('\r\n');

  it('gives its whole days, the last one in', () => {
    const text = calendar(
      'SUMMARY:Autumn holidays',
      'DTSTART;VALUE=DATE:20261019',
      'DTEND;VALUE=DATE:20261031',
    );
    expect(readCalendar(text)).toEqual({
      times: [{ from: '2026-10-19', until: '2026-10-31', name: 'Autumn holidays' }],
    });
    const oneDay = calendar('SUMMARY:Bridge', 'DTSTART;VALUE=DATE:20261019');
    expect(readCalendar(oneDay)).toMatchObject({
      times: [{ from: '2026-10-19', until: '2026-10-20' }],
    });
  });

  // RFC 5545 3.8.5.3: monthly on the first Friday for ten occurrences.
  it('gives what comes again, as a published rule says', () => {
    const text = calendar(
      'SUMMARY:Closed',
      'DTSTART;VALUE=DATE:19970905',
      'RRULE:FREQ=MONTHLY;COUNT=10;BYDAY=1FR',
    );
    const read = readCalendar(text);
    expect('times' in read && read.times.map(({ from }) => from)).toEqual([
      '1997-09-05',
      '1997-10-03',
      '1997-11-07',
      '1997-12-05',
      '1998-01-02',
      '1998-02-06',
      '1998-03-06',
      '1998-04-03',
      '1998-05-01',
      '1998-06-05',
    ]);
  });

  it('says what is wrong with a text', () => {
    expect(readCalendar('Monday: closed')).toMatchObject({
      reason: expect.stringContaining('no iCalendar'),
    });
    const timed = calendar('SUMMARY:Exam', 'DTSTART:20261019T080000Z', 'DTEND:20261019T100000Z');
    expect(readCalendar(timed)).toEqual({ reason: 'names no event of whole days' });
    const endless = calendar('SUMMARY:X', 'DTSTART;VALUE=DATE:20261019', 'RRULE:FREQ=DAILY');
    expect(readCalendar(endless)).toMatchObject({ times: { length: 200 } });
    const long = calendar('SUMMARY:X', 'DTSTART;VALUE=DATE:20261019', 'DTEND;VALUE=DATE:20291019');
    expect(readCalendar(long)).toMatchObject({ reason: expect.stringContaining('longer than') });
  });
});
