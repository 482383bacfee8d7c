import { describe, expect, it } from '@jest/globals';
import ICAL from 'ical.js';
import { type FeedVisit, visitsAsCalendar } from './visits-as-calendar.js';

const NOW = new Date('2026-03-02T08:00:00Z');
const VISIT: FeedVisit = {
  id: '01900000-0000-7000-8000-00000000e001',
  on: '2026-03-04',
  fromTime: null,
  untilTime: null,
  zone: 'Europe/Berlin',
  kind: 'planned',
  purpose: 'Upkeep, both trunks; bring the tower\nand BEGIN:VALARM',
  state: 'planned',
  version: 3,
  siteName: 'Hebberlo Lower School',
  address: '2 Wick Row, Hebberlo',
};

/** Another library reads what this one wrote. */
function read(text: string): ICAL.Event[] {
  const calendar = new ICAL.Component(ICAL.parse(text) as [string, unknown[], unknown[]]);
  expect(calendar.getAllSubcomponents('valarm')).toEqual([]);
  return calendar.getAllSubcomponents('vevent').map((event) => new ICAL.Event(event));
}

describe('visitsAsCalendar', () => {
  it.each(['2026-03-04', '2026-03-29', '2026-10-25', '2026-12-31'])('keeps the day %s', (on) => {
    const [event] = read(visitsAsCalendar('Ilvo Marsh', [{ ...VISIT, on }], NOW));
    expect(event?.startDate.toString()).toBe(on);
    expect(event?.startDate.isDate).toBe(true);
    expect(event?.duration.toSeconds()).toBe(24 * 3600);
  });

  // Clocks go forward at 02:00 on 29 March and back at 03:00 on 25 October 2026 there (IANA tz).
  it.each([
    ['2026-03-04', '08:30', '10:00', '2026-03-04T07:30:00.000Z', 1.5],
    ['2026-03-29', '01:30', '04:00', '2026-03-29T00:30:00.000Z', 1.5],
    ['2026-10-25', '01:30', '04:00', '2026-10-24T23:30:00.000Z', 3.5],
  ])('has the hours of a visit on %s from %s to %s', (on, fromTime, untilTime, start, hours) => {
    const visit = { ...VISIT, on, fromTime, untilTime };
    const [event] = read(visitsAsCalendar('Ilvo Marsh', [visit], NOW));
    expect(event?.startDate.isDate).toBe(false);
    expect(event?.startDate.toJSDate().toISOString()).toBe(start);
    expect(event?.duration.toSeconds()).toBe(hours * 3600);
  });

  it('keeps every character of what people wrote, and cannot be broken out of', () => {
    const [event] = read(visitsAsCalendar('Ilvo Marsh', [VISIT], NOW));
    expect(event?.summary).toBe(`${VISIT.siteName}: ${VISIT.purpose}`);
    expect(event?.location).toBe(VISIT.address);
    expect(event?.uid).toBe(`${VISIT.id}@lastheard`);
    expect(event?.sequence).toBe(3);
  });

  it('cancels what was called off or missed', () => {
    const states = ['planned', 'under-way', 'done', 'missed', 'called-off'];
    const events = read(
      visitsAsCalendar(
        'Ilvo Marsh',
        states.map((state) => ({ ...VISIT, state, id: state })),
        NOW,
      ),
    );
    expect(events.map(({ component }) => component.getFirstPropertyValue('status'))).toEqual([
      'CONFIRMED',
      'CONFIRMED',
      'CONFIRMED',
      'CANCELLED',
      'CANCELLED',
    ]);
  });

  it('is a calendar without events too', () => {
    expect(read(visitsAsCalendar('Ilvo Marsh', [], NOW))).toEqual([]);
  });
});
