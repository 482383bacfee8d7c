import ical, { ICalCalendarMethod, ICalEventStatus } from 'ical-generator';
import { Temporal } from 'temporal-polyfill';

export interface FeedVisit {
  id: string;
  /** The day, "2026-05-04". */
  on: string;
  /** By the site's clock, "08:30"; null: some time of the day. */
  fromTime: string | null;
  untilTime: string | null;
  zone: string;
  kind: string;
  purpose: string;
  state: string;
  version: number;
  siteName: string;
  address: string | null;
}

/** How often a calendar program should ask again. */
const EACH_SECONDS = 15 * 60;

/**
 * Visits as an iCalendar text (RFC 5545). With hours an event is between two instants in UTC, which every program shows by its
 * own clock; without, it is a whole day, which has no time zone and is the same day wherever it is read. What was called
 * off stays, cancelled, so that programs take it out.
 */
export function visitsAsCalendar(name: string, visits: readonly FeedVisit[], now: Date): string {
  const calendar = ical({ name, method: ICalCalendarMethod.PUBLISH, ttl: EACH_SECONDS });
  calendar.prodId({ company: 'Lastheard', product: 'visits', language: 'EN' });
  for (const visit of visits) {
    calendar.createEvent({
      id: `${visit.id}@lastheard`,
      sequence: visit.version,
      stamp: now,
      ...timeOf(visit),
      timezone: 'UTC',
      summary: `${visit.siteName}: ${visit.purpose}`,
      location: visit.address,
      status: ['called-off', 'missed'].includes(visit.state)
        ? ICalEventStatus.CANCELLED
        : ICalEventStatus.CONFIRMED,
    });
  }
  return calendar.toString();
}

function timeOf({ on, fromTime, untilTime, zone }: FeedVisit) {
  if (fromTime !== null && untilTime !== null)
    return { start: instantAt(on, fromTime, zone), end: instantAt(on, untilTime, zone) };
  const start = new Date(`${on}T00:00:00Z`);
  return { start, end: new Date(start.getTime() + 24 * 3_600_000), allDay: true };
}

function instantAt(day: string, time: string, zone: string): Date {
  const local = Temporal.PlainDateTime.from(`${day}T${time}`);
  return new Date(local.toZonedDateTime(zone).epochMilliseconds);
}
