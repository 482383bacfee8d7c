import { ask } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { PAGE_LANGUAGE } from '../parts/language.js';
import { localDay } from '../parts/local-day.js';
import type {
  Desk,
  DeskTicket,
  Listed,
  ReadKit,
  ReadSite,
  ReadVisit,
  ShownTicket,
} from '../parts/wire.js';
import type { FieldDatabase, KeptRead } from './field-database.js';
import type { OutboxEntry } from './outbox.js';

/** What a technician has to do, as it was read last. */
export interface KeptWork {
  /** Of this person: today, tomorrow, and what was begun before. */
  visits: ReadVisit[];
  /** Every open ticket of the firm, as for a call at night. */
  tickets: DeskTicket[];
  /** Of the visits. */
  sites: ReadSite[];
  /** Visits that somebody signed for. */
  signed: string[];
}

/** A ticket with all that its page needs. Without a kit where the locator does not take what was told. */
export interface KeptTicket {
  ticket: ShownTicket;
  kit: ReadKit;
}

/** What a phone keeps beforehand. */
const MOST_KITS = 40;

export async function keptWork(
  database: FieldDatabase,
  personId: string,
): Promise<KeptRead<KeptWork> | undefined> {
  return (await database.get('reads', workKey(personId))) as KeptRead<KeptWork> | undefined;
}

export async function keptTicket(
  database: FieldDatabase,
  ticketId: string,
): Promise<KeptRead<KeptTicket> | undefined> {
  return (await database.get('reads', ticketKey(ticketId))) as KeptRead<KeptTicket> | undefined;
}

function workKey(personId: string): string {
  return `work ${personId}`;
}

function ticketKey(ticketId: string): string {
  return `ticket ${ticketId}`;
}

/** Whether what it is about was read after the service took it; a ticket that is closed is no longer read by itself. */
export async function isReadSince(
  database: FieldDatabase,
  { subject, personId, takenAt, path }: OutboxEntry,
): Promise<boolean> {
  const isSince = (read: KeptRead | undefined) =>
    takenAt !== null && read !== undefined && takenAt < read.askedAt;
  const { ticketId } = subject;
  const work = await keptWork(database, personId);
  if (ticketId === null || path.startsWith('/visits')) return isSince(work);
  if (isSince(await keptTicket(database, ticketId))) return true;
  return isSince(work) && work?.value.tickets.every(({ id }) => id !== ticketId) === true;
}

/** Reads anew what is to be done, keeps it, and then the kits of it. Throws a Failure where the service is not reached. */
export async function readWork(database: FieldDatabase, personId: string): Promise<void> {
  const askedAt = new Date().toISOString();
  const day = (from: number) => localDay(new Date(), from);
  const range = `from=${day(-7)}&until=${day(3)}&limit=200`;
  const [listed, desk] = await Promise.all([
    ask<Listed<ReadVisit>>('GET', `/visits?technician=${personId}&${range}`),
    ask<Desk>('GET', '/desk'),
  ]);
  const visits = listed.items.filter(
    ({ state, on }) =>
      state === 'under-way' ||
      (state === 'planned' && on >= day(-1)) ||
      (state === 'done' && on >= day(-1)),
  );
  const siteIds = [...new Set(visits.map(({ siteId }) => siteId))];
  const sites = await Promise.all(siteIds.map((id) => ask<ReadSite>('GET', `/sites/${id}`)));
  const signed = await signedOf(visits);
  const value: KeptWork = { visits, tickets: desk.items, sites, signed };
  await database.put('reads', { value, askedAt }, workKey(personId));
  const open = new Set(desk.items.map(({ id }) => id));
  const wanted = [...new Set(visits.flatMap(({ ticketIds }) => ticketIds))].filter((id) =>
    open.has(id),
  );
  for (const ticketId of wanted.slice(0, MOST_KITS)) await readTicketIfItCan(database, ticketId);
}

/** One that the service does not give, as where the locator does not take what was told, stops none of the others. */
async function readTicketIfItCan(database: FieldDatabase, ticketId: string): Promise<void> {
  try {
    await readTicket(database, ticketId);
  } catch (error) {
    if (!(error instanceof Failure) || error.isForLater || error.status === 401) throw error;
  }
}

async function signedOf(visits: readonly ReadVisit[]): Promise<string[]> {
  const done = visits.filter(({ state }) => state === 'done');
  const lists = await Promise.all(
    done.map(({ id }) => ask<{ items: { visitId: string }[] }>('GET', `/visits/${id}/signatures`)),
  );
  return lists.flatMap(({ items }) => items.slice(0, 1).map(({ visitId }) => visitId));
}

/** Reads a ticket and its kit, and keeps both; what is kept stays where they cannot be read. */
export async function readTicket(database: FieldDatabase, ticketId: string): Promise<void> {
  const askedAt = new Date().toISOString();
  const kept = await keptTicket(database, ticketId);
  const [ticket, kit] = await Promise.all([
    ask<ShownTicket>('GET', `/tickets/${ticketId}`),
    readKit(ticketId, kept?.etag),
  ]);
  const value = { ticket, kit: kit === 'same' ? kept?.value.kit : kit.kit };
  const etag = kit === 'same' ? kept?.etag : kit.etag;
  await database.put(
    'reads',
    { value, askedAt, ...(etag !== undefined && { etag }) },
    ticketKey(ticketId),
  );
}

/** By its ETag a kit is sent only where it is another. */
async function readKit(
  ticketId: string,
  etag: string | undefined,
): Promise<{ kit: ReadKit; etag: string } | 'same'> {
  const headers = {
    accept: 'application/json',
    'accept-language': PAGE_LANGUAGE,
    ...(etag !== undefined && { 'if-none-match': etag }),
  };
  const response = await fetch(`/api/v1/tickets/${ticketId}/kit`, { headers }).catch(() => null);
  if (response === null) throw new Failure(0, '');
  if (response.status === 304) return 'same';
  if (!response.ok) throw new Failure(response.status, '');
  return { kit: (await response.json()) as ReadKit, etag: response.headers.get('etag') ?? '' };
}
