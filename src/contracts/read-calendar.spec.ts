import { describe, expect, it } from '@jest/globals';

import { readCalendar } from './read-calendar.js';

const TODAY = '2026-03-02';

function event(...lines: string[]): string[] {
  return ['BEGIN:VEVENT', 'DTSTAMP:19970101T000000Z', ...lines, 'END:VEVENT'];
}

function calendar(...events: string[][]): string {
  const head = ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//x//y//EN'];
  return [...head, ...events.flat(), 'END:VCALENDAR'].join('\r\n');
}

function daysOf(text: string): string[] {
  const read = readCalendar({ text, today: TODAY });
  if ('errors' in read) throw new Error(read.errors[0]?.reason);
  return read.times.map(({ from }) => from);
}

function byRule(start: string, rule: string, ...more: string[]): string[] {
  return daysOf(calendar(event('UID:1', `DTSTART;VALUE=DATE:${start}`, `RRULE:${rule}`, ...more)));
}

function refusal(text: string): unknown {
  return readCalendar({ text, today: TODAY });
}

describe('an imported calendar', () => {
  it('gives its whole days, the last one in', () => {
    const autumn = event(
      'UID:1',
      'SUMMARY:Autumn holidays',
      'DTSTART;VALUE=DATE:20261019',
      'DTEND;VALUE=DATE:20261031',
    );
    const bridge = event('UID:2', 'SUMMARY:Bridge', 'DTSTART;VALUE=DATE:20260515');
    const week = event('UID:3', 'DTSTART;VALUE=DATE:20261221', 'DURATION:P2W');
    expect(refusal(calendar(autumn, bridge, week))).toEqual({
      times: [
        { from: '2026-05-15', until: '2026-05-16', name: 'Bridge' },
        { from: '2026-10-19', until: '2026-10-31', name: 'Autumn holidays' },
        { from: '2026-12-21', until: '2027-01-04', name: 'Closed' },
      ],
      leftOut: 0,
    });
  });

  // The examples of RFC 5545 3.8.5.3, with days in place of instants; the last two are of its 3.3.10 (dates that do not exist).
  it.each([
    [
      '19970905',
      'FREQ=MONTHLY;COUNT=10;BYDAY=1FR',
      '1997: 0905 1003 1107 1205 1998: 0102 0206 0306 0403 0501 0605',
    ],
    [
      '19970907',
      'FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU',
      '1997: 0907 0928 1102 1130 1998: 0104 0125 0301 0329 0503 0531',
    ],
    [
      '19970910',
      'FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15',
      '1997: 0910 0911 0912 0913 0914 0915 1999: 0310 0311 0312 0313',
    ],
    [
      '19970101',
      'FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200',
      '1997: 0101 0410 0719 2000: 0101 0409 0718 2003: 0101 0410 0719 2006: 0101',
    ],
    ['19970519', 'FREQ=YEARLY;BYDAY=20MO', '1997: 0519 1998: 0518 1999: 0517'],
    ['19970512', 'FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO', '1997: 0512 1998: 0511 1999: 0517'],
    [
      '19970313',
      'FREQ=YEARLY;BYMONTH=3;BYDAY=TH',
      '1997: 0313 0320 0327 1998: 0305 0312 0319 0326 1999: 0304 0311 0318 0325',
    ],
    [
      '19970913',
      'FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13',
      '1997: 0913 1011 1108 1213 1998: 0110 0207 0307 0411 0509 0613',
    ],
    [
      '19961105',
      'FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8',
      '1996: 1105 2000: 1107 2004: 1102',
    ],
    ['19970904', 'FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3', '1997: 0904 1007 1106'],
    [
      '19970929',
      'FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2',
      '1997: 0929 1030 1127 1230 1998: 0129 0226 0330',
    ],
    ['19970805', 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO', '1997: 0805 0810 0819 0824'],
    ['19970805', 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU', '1997: 0805 0817 0819 0831'],
    ['20070115', 'FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5', '2007: 0115 0130 0215 0315 0330'],
    ['20240229', 'FREQ=YEARLY;COUNT=3', '2024: 0229 2028: 0229 2032: 0229'],
    ['20260131', 'FREQ=MONTHLY;INTERVAL=3;COUNT=3', '2026: 0131 0731 1031'],
  ])('gives what comes again: from %s %s', (start, rule, expected) => {
    const days = expected.split(/ (?=\d{4}:)/).flatMap((part) => {
      const [year, listed = ''] = part.split(': ');
      return listed.split(' ').map((day) => `${year}-${day.slice(0, 2)}-${day.slice(2)}`);
    });
    expect(byRule(start, rule).slice(0, days.length)).toEqual(days);
    if (rule.includes('COUNT')) expect(byRule(start, rule)).toHaveLength(days.length);
  });

  // RFC 5545 3.8.5.3: every Friday the 13th, without the day from which it is counted; daily until 24 December.
  it('leaves out what is excepted, and ends where the rule does', () => {
    const fridays = byRule(
      '19970902',
      'FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13',
      'EXDATE;VALUE=DATE:19970902',
    );
    expect(fridays.slice(0, 4)).toEqual(['1998-02-13', '1998-03-13', '1998-11-13', '1999-08-13']);
    const daily = byRule('19970902', 'FREQ=DAILY;UNTIL=19971224T000000Z');
    expect([daily.length, daily.at(-1)]).toEqual([114, '1997-12-24']);
    const more = byRule(
      '20260105',
      'FREQ=WEEKLY;COUNT=3',
      'EXDATE;VALUE=DATE:20260112',
      'RDATE;VALUE=DATE:20260114,20260105',
    );
    expect(more).toEqual(['2026-01-05', '2026-01-14', '2026-01-19']);
    const dates = event('UID:1', 'DTSTART;VALUE=DATE:20260105', 'RDATE;VALUE=DATE:20260301');
    expect(daysOf(calendar(dates))).toEqual(['2026-01-05', '2026-03-01']);
  });

  it('takes what was moved or called off as it now is', () => {
    const inset = event('UID:1', 'DTSTART;VALUE=DATE:20260105', 'RRULE:FREQ=MONTHLY;COUNT=3');
    const moved = event(
      'UID:1',
      'RECURRENCE-ID;VALUE=DATE:20260205',
      'DTSTART;VALUE=DATE:20260209',
    );
    const off = event(
      'UID:1',
      'RECURRENCE-ID;VALUE=DATE:20260305',
      'DTSTART;VALUE=DATE:20260305',
      'STATUS:CANCELLED',
    );
    const alone = event('UID:2', 'DTSTART;VALUE=DATE:20260401', 'STATUS:CANCELLED');
    expect(daysOf(calendar(moved, inset, off, alone))).toEqual(['2026-01-05', '2026-02-09']);
  });

  it('reaches beyond today where a rule has no end, however long ago it began', () => {
    const days = byRule('20150103', 'FREQ=WEEKLY');
    expect(days).toHaveLength(200);
    expect(days.filter((day) => day >= TODAY && day < '2029-03-02')).toHaveLength(156);
    expect(days.filter((day) => day < TODAY).length).toBeGreaterThan(30);
    expect(byRule('20260302', 'FREQ=WEEKLY').at(-1)).toBe('2029-12-24');
  });

  it('says what is wrong with a text', () => {
    expect(refusal('Monday: closed')).toEqual({
      errors: [{ line: 1, reason: 'is no iCalendar text: it does not begin with BEGIN:VCALENDAR' }],
    });
    const timed = event('UID:1', 'DTSTART:20261019T080000Z', 'DTEND:20261019T100000Z');
    expect(refusal(calendar(timed))).toEqual({
      errors: [{ reason: 'names no event of whole days' }],
    });
    const day = event('UID:3', 'DTSTART;VALUE=DATE:20261019');
    const off = event('UID:4', 'STATUS:CANCELLED', 'DTSTART;VALUE=DATE:20261020');
    expect(refusal(calendar(timed, off, day))).toMatchObject({ leftOut: 2 });
  });

  it('says of each event that is wrong on which line it begins', () => {
    const good = event('UID:1', 'DTSTART;VALUE=DATE:20261019');
    const long = event('UID:2', 'DTSTART;VALUE=DATE:20261019', 'DTEND;VALUE=DATE:20291019');
    const turned = event('UID:3', 'DTSTART;VALUE=DATE:20261019', 'DTEND;VALUE=DATE:20261019');
    // Three lines of head, five of the good one, six of the long one.
    expect(refusal(calendar(good, long, turned))).toEqual({
      errors: [
        { line: 9, reason: 'is longer than 400 days' },
        { line: 15, reason: 'ends before it begins' },
      ],
    });
  });

  it.each([
    ['has no name with a colon behind it', 6, (lines: string[]) => lines.splice(5, 0, 'Closed')],
    ['begins VEVENT, which is never ended', 4, (lines: string[]) => lines.splice(7, 2)],
    ['ends VCALENDAR, which was not begun last', 8, (lines: string[]) => lines.splice(7, 1)],
  ] as const)('says of a text that %s on which line: %s', (reason, line, spoil) => {
    const lines = calendar(event('UID:1', 'DTSTART;VALUE=DATE:20261019')).split('\r\n');
    expect(lines).toHaveLength(9);
    spoil(lines);
    expect(refusal(lines.join('\n'))).toEqual({ errors: [{ line, reason }] });
  });

  it.each([
    ['FREQ=DAILY;COUNT=501', 'names 501 times'],
    ['FREQ=HOURLY;COUNT=3', 'HOURLY'],
    ['FREQ=DAILY;BYHOUR=3', 'BYHOUR'],
    ['FREQ=FORTNIGHTLY', 'FORTNIGHTLY'],
    ['FREQ=DAILY;BYDAY=XX', 'XX'],
    // No day is the 30th of February: it is not looked for for ever.
    ['FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30', 'Maximum iterations'],
  ])('refuses %s, saying %s', (rule, reason) => {
    const text = calendar(event('UID:1', 'DTSTART;VALUE=DATE:20260101', `RRULE:${rule}`));
    expect(refusal(text)).toMatchObject({ errors: [{ reason: expect.stringContaining(reason) }] });
  });
});
