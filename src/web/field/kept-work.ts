import { ask, askIfChanged } from '../parts/ask.js';
import { Failure } from '../parts/failure.js';
import { localDay } from '../parts/local-day.js';
import { SERVICE_CLOCK } from '../parts/service-clock.js';
import type {
  Desk,
  DeskTicket,
  Listed,
  ReadKit,
  ReadKitInWords,
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

/** A ticket of a site that nobody has drawn: there is nothing to work out, only what was said. */
export interface KeptInWords {
  ticket: ShownTicket;
  inWords: ReadKitInWords;
}

/** What a phone keeps beforehand: of one's own visits, and of other open tickets, as for a call at night. */
const MOST_KITS = 40;
const MOST_OTHER_KITS = 20;
/** Kits of others are read anew only then. */
const OTHER_KITS_LAST_MS = 3_600_000;

export async function keptWork(
  database: FieldDatabase,
  personId: string,
): Promise<KeptRead<KeptWork> | undefined> {
  return (await database.get('reads', workKey(personId))) as KeptRead<KeptWork> | undefined;
}

export async function keptTicket(
  database: FieldDatabase,
  ticketId: string,
): Promise<KeptRead<KeptTicket | KeptInWords> | undefined> {
  return (await database.get('reads', ticketKey(ticketId))) as
    KeptRead<KeptTicket | KeptInWords> | undefined;
}

function workKey(personId: string): string {
  return `work ${personId}`;
}

function ticketKey(ticketId: string): string {
  return `ticket ${ticketId}`;
}

/** What was read, of the work and of tickets; what is shown may be older than what is kept. */
export interface WhatWasRead {
  work: KeptRead<KeptWork> | undefined;
  /** Of the ticket that an entry is about. */
  ticket: KeptRead<KeptTicket | KeptInWords> | undefined;
}

/**
 * Whether what was read tells of an entry: it names it, or was asked for after the service took it. What was asked for while the entry was
 * on its way may tell of it as well. A ticket that is closed is no longer read by itself.
 */
export function isToldBy(
  { id, subject, takenAt, path }: OutboxEntry,
  { work, ticket }: WhatWasRead,
): boolean {
  const isSince = (read: KeptRead | undefined) =>
    takenAt !== null && read !== undefined && takenAt < read.askedAt;
  const { ticketId } = subject;
  if (ticketId === null || path.startsWith('/visits')) return isSince(work);
  if (isSince(ticket) || (ticket !== undefined && entryIdsOf(ticket.value).includes(id)))
    return true;
  return isSince(work) && work?.value.tickets.every(({ id }) => id !== ticketId) === true;
}

/** None where an older app kept it. */
function entryIdsOf(kept: KeptTicket | KeptInWords): readonly string[] {
  const kit: Partial<Pick<ReadKit, 'entryIds'>> = 'kit' in kept ? kept.kit : kept.inWords;
  return kit.entryIds ?? [];
}

/** Whether what is kept tells of it. */
export async function isReadSince(database: FieldDatabase, entry: OutboxEntry): Promise<boolean> {
  const { personId, subject } = entry;
  const [work, ticket] = await Promise.all([
    keptWork(database, personId),
    subject.ticketId === null ? undefined : keptTicket(database, subject.ticketId),
  ]);
  return isToldBy(entry, { work, ticket });
}

/**
 * Reads anew what is to be done, keeps it, and then the kits of it. Throws a Failure where the service is not reached.
 *
 * @param onWork told as soon as what is to be done is kept, before the kits
 */
export async function readWork(
  database: FieldDatabase,
  personId: string,
  onWork: () => void = () => undefined,
): Promise<void> {
  const askedAt = new Date().toISOString();
  const day = (from: number) => localDay(new Date(SERVICE_CLOCK.now()), from);
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
  onWork();
  const open = new Set(desk.items.map(({ id }) => id));
  const wanted = [...new Set(visits.flatMap(({ ticketIds }) => ticketIds))].filter((id) =>
    open.has(id),
  );
  for (const ticketId of wanted.slice(0, MOST_KITS)) await readTicketIfItCan(database, ticketId);
  const others = desk.items.map(({ id }) => id).filter((id) => !wanted.includes(id));
  for (const ticketId of others.slice(0, MOST_OTHER_KITS)) {
    const kept = await keptTicket(database, ticketId);
    const isFresh = Date.parse(askedAt) - Date.parse(kept?.askedAt ?? '') < OTHER_KITS_LAST_MS;
    if (!isFresh) await readTicketIfItCan(database, ticketId);
  }
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

/**
 * Reads a ticket and its kit, and keeps both; what is kept stays where they cannot be read. The ticket is asked for last: it is no older than
 * the kit, which names the entries that both tell of.
 */
export async function readTicket(database: FieldDatabase, ticketId: string): Promise<void> {
  const askedAt = new Date().toISOString();
  const kept = await keptTicket(database, ticketId);
  const before = kept !== undefined && 'kit' in kept.value ? kept.value.kit : undefined;
  const askTicket = () => ask<ShownTicket>('GET', `/tickets/${ticketId}`);
  const readInWords = async (refused: unknown): Promise<void> => {
    const inWords = await ask<ReadKitInWords>('GET', `/tickets/${ticketId}/kit-in-words`);
    const ticket = await askTicket();
    if (ticket.asBuiltVersion !== 0) throw refused;
    await database.put('reads', { value: { ticket, inWords }, askedAt }, ticketKey(ticketId));
  };
  let kit;
  try {
    // By its ETag a kit is sent only where it is another.
    kit = await askIfChanged<ReadKit>(`/tickets/${ticketId}/kit`, before && kept?.etag);
  } catch (error) {
    if (!(error instanceof Failure) || error.status !== 422) throw error;
    return readInWords(error);
  }
  const ticket = await askTicket();
  const value = { ticket, kit: kit === 'same' ? before : kit.answer };
  const etag = kit === 'same' ? kept?.etag : kit.etag;
  await database.put(
    'reads',
    { value, askedAt, ...(etag !== undefined && { etag }) },
    ticketKey(ticketId),
  );
}
