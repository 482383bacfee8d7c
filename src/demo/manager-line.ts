import { Temporal } from 'temporal-polyfill';
import type { ApiClient } from './api-client.js';

const MINUTES_BEFORE = 100;
const MINUTES_LONG = 60;

interface Clock {
  zone: string;
  contractTitle: string | null;
  troubleClass: string;
  promises: { promise: string; dueAt: string | null; words: string }[];
}

interface Ticket {
  id: string;
  siteId: string;
  number: number;
}

/** What the contract manager wants to know of the main job: what was promised, and whether the plan keeps it. */
export async function managerLine(
  api: ApiClient,
  siteId: string,
  technicianId: string,
  now: Date,
): Promise<string> {
  const open = await api.get<{ items: Ticket[] }>(`/tickets?site=${siteId}&sort=newest&open=true`);
  const [ticket] = open.items;
  if (ticket === undefined) throw new Error('There is no open ticket to keep a promise for');
  const clock = await api.get<Clock>(`/tickets/${ticket.id}/clock`);
  const [response] = clock.promises;
  if (response?.dueAt == null) return 'Promised: nothing, no contract was in force.';
  const plannedAt = await planned(
    api,
    ticket,
    { dueAt: response.dueAt, zone: clock.zone },
    now,
    technicianId,
  );
  // The list shows what a job has kept, which may be a moment behind.
  const { places } = await api.get<{ places: { words: string }[] }>(
    `/tickets/${ticket.id}/location`,
  );
  const told = (at: string) => dayAndTime(at, clock.zone);
  return [
    `The manager reads (${clock.contractTitle ?? ''}):`,
    `  promised by ${told(response.dueAt)}, planned ${told(plannedAt)}, ${places[0]?.words ?? 'no place named'}`,
    `  ${response.words}`,
  ].join('\n');
}

/** The visit for the ticket; one is planned in good time where there is none. */
async function planned(
  api: ApiClient,
  ticket: Ticket,
  { dueAt, zone }: { dueAt: string; zone: string },
  now: Date,
  technicianId: string,
): Promise<string> {
  const at = Math.max(now.getTime(), Date.parse(dueAt) - MINUTES_BEFORE * 60_000);
  const wanted = Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(zone);
  const found = await api.get<{ items: { on: string; fromTime: string | null }[] }>(
    `/visits?ticket=${ticket.id}&state=planned`,
  );
  const [visit] = found.items;
  const on = visit?.on ?? wanted.toPlainDate().toString();
  const latest = Temporal.PlainTime.from('22:59');
  const wish = wanted.toPlainTime().round('minute');
  const start = Temporal.PlainTime.compare(wish, latest) > 0 ? latest : wish;
  const fromTime = visit?.fromTime ?? start.toString().slice(0, 5);
  if (visit === undefined) {
    await api.post('/visits', {
      siteId: ticket.siteId,
      kind: 'call-out',
      on,
      fromTime,
      untilTime: start.add({ minutes: MINUTES_LONG }).toString().slice(0, 5),
      technicianId,
      purpose: `Ticket ${ticket.number}`,
      ticketIds: [ticket.id],
      confirmed: ['double-booked', 'in-the-past'],
    });
  }
  const local = Temporal.PlainDate.from(on).toPlainDateTime(Temporal.PlainTime.from(fromTime));
  return new Date(local.toZonedDateTime(zone).epochMilliseconds).toISOString();
}

function dayAndTime(at: string, timeZone: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    weekday: 'long',
    hour: '2-digit',
    minute: '2-digit',
    timeZone,
  }).format(new Date(at));
}
