import ical, { ICalCalendarMethod, ICalEventStatus } from 'ical-generator';

export interface FeedVisit {
  id: string;
  /** The day, "2026-05-04". */
  on: string;
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
 * Visits as an iCalendar text (RFC 5545), each an event of a whole day: a day has no time zone, so that it is the same day
 * wherever it is read. What was called off stays, cancelled, so that programs take it out.
 */
export function visitsAsCalendar(name: string, visits: readonly FeedVisit[], now: Date): string {
  const calendar = ical({ name, method: ICalCalendarMethod.PUBLISH, ttl: EACH_SECONDS });
  calendar.prodId({ company: 'Lastheard', product: 'visits', language: 'EN' });
  for (const visit of visits) {
    calendar.createEvent({
      id: `${visit.id}@lastheard`,
      sequence: visit.version,
      stamp: now,
      start: new Date(`${visit.on}T00:00:00Z`),
      end: new Date(Date.parse(`${visit.on}T00:00:00Z`) + 24 * 3_600_000),
      allDay: true,
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
