import { Temporal } from 'temporal-polyfill';
import type { ApiClient } from './api-client.js';

/** Plans are made of today and of so many days more at most, none after the one by which somebody is promised. */
const DAYS_AHEAD = 7;

interface Clock {
  zone: string;
  contractTitle: string | null;
  promises: { dueAt: string | null; words: string }[];
}

interface Ticket {
  id: string;
  number: number;
}

interface PlannedJob {
  ticketNumbers: number[];
  begins: string;
  ends: string;
  keptChance: number | null;
  parts?: { name: string; neededChance: number; isInVan: boolean | null }[];
}

interface DayPlan {
  day: string;
  version: number;
  acceptedAt: string | null;
  routes: { technicianId: string; jobs: PlannedJob[] }[];
}

/** Who goes, and when, by the plan of a day. */
interface Sent extends PlannedJob {
  day: string;
  technicianId: string;
}

/**
 * The dispatcher plans the days until somebody is promised and sends whom the plan names; the manager reads beside it whether the
 * promise will be kept.
 */
export async function managerLine(
  api: ApiClient,
  siteId: string,
  technicians: readonly { id: string; name: string }[],
  now: Date,
): Promise<string> {
  const open = await api.get<{ items: Ticket[] }>(`/tickets?site=${siteId}&sort=newest&open=true`);
  const [ticket] = open.items;
  if (ticket === undefined) return 'The ticket is closed: nothing is to be planned for it.';
  const clock = await api.get<Clock>(`/tickets/${ticket.id}/clock`);
  const [response] = clock.promises;
  if (response?.dueAt == null) return 'Promised: nothing, no contract was in force.';
  const sent = await send(api, ticket, daysUntil(response.dueAt, clock.zone, now));
  // The list shows what a job has kept, which may be a moment behind.
  const location = await api.get<{ places: { words: string }[] }>(`/tickets/${ticket.id}/location`);
  const place = location.places[0]?.words ?? 'no place named';
  const due = dayAndTime(response.dueAt, clock.zone);
  const who = technicians.find(({ id }) => id === sent?.technicianId)?.name ?? 'nobody';
  return [
    'The dispatcher reads:',
    `  ${place}; ${sent === null ? 'nobody is free before it is due' : `${who} goes, ${whenOf(sent)}, there until ${sent.ends}`}`,
    ...partsOf(sent),
    `The manager reads (${clock.contractTitle ?? ''}):`,
    `  promised by ${due}, ${sent === null ? 'not planned' : `planned ${whenOf(sent)}, ${keptOf(sent)}`}`,
    `  ${response.words}`,
  ].join('\n');
}

/** What the van has of what is worth taking along, and what is to be loaded. */
function partsOf(sent: Sent | null): string[] {
  const said = (label: string, inVan: boolean) => {
    const named = (sent?.parts ?? [])
      .filter(({ isInVan }) => isInVan === inVan)
      .map(({ name, neededChance }) => `${name} (needed with ${percentOf(neededChance)})`);
    return named.length === 0 ? [] : [`  ${label}: ${named.join(', ')}`];
  };
  return [...said('in the van', true), ...said('to be loaded before leaving', false)];
}

/** Plans day by day until the ticket has its place, and does as that plan says, once. */
async function send(api: ApiClient, { id, number }: Ticket, days: string[]): Promise<Sent | null> {
  const { items: visits } = await api.get<{ items: unknown[] }>(
    `/visits?ticket=${id}&state=planned`,
  );
  for (const day of days) {
    const plan = await api.post<DayPlan>(`/plans/days/${day}`, {});
    for (const { technicianId, jobs } of plan.routes) {
      const job = jobs.find(({ ticketNumbers }) => ticketNumbers.includes(number));
      if (job === undefined) continue;
      if (visits.length === 0) await api.post(`/plans/days/${day}/acceptance`, {}, plan.version);
      return { ...job, day, technicianId };
    }
  }
  return null;
}

function daysUntil(dueAt: string, zone: string, now: Date): string[] {
  const dayOf = (at: Date) =>
    Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(zone).toPlainDate();
  const today = dayOf(now);
  const count = Math.min(DAYS_AHEAD, today.until(dayOf(new Date(dueAt))).days);
  return Array.from({ length: count + 1 }, (_, days) => today.add({ days }).toString());
}

function whenOf({ day, begins }: Sent): string {
  const weekday = Temporal.PlainDate.from(day).toLocaleString('en-GB', { weekday: 'long' });
  return `${weekday} ${begins}`;
}

function keptOf({ keptChance }: Sent): string {
  if (keptChance === null) return 'nothing promised';
  return percentOf(keptChance);
}

/** Nothing that is still to come is certain. */
function percentOf(chance: number): string {
  return chance > 0.99 ? 'over 99 %' : `${Math.floor(chance * 100)} %`;
}

function dayAndTime(at: string, timeZone: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    weekday: 'long',
    hour: '2-digit',
    minute: '2-digit',
    timeZone,
  }).format(new Date(at));
}
