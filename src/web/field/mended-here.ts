import type { ReadKit } from '../parts/wire.js';
import type { OutboxEntry } from './outbox.js';

/** A mending that can be taken back. */
export interface Mended {
  id: string;
  words: string;
  by: string;
  at: string;
}

/** The mending that an entry takes back; undefined: it takes none. */
export function mendingTakenBack({ path }: Pick<OutboxEntry, 'path'>): string | undefined {
  return /\/mendings\/([^/]+)\/withdraw$/.exec(path)?.[1];
}

/** Entries without mendings that are taken back here, and without that they are; of others that they are stays. */
export function withoutTakenBack(entries: readonly OutboxEntry[]): OutboxEntry[] {
  const taken = new Set(entries.filter(({ state }) => state !== 'refused').map(mendingTakenBack));
  const gone = entries.filter(({ id, path }) => path.endsWith('/mendings') && taken.has(id));
  const ids = new Set<string | undefined>(gone.map(({ id }) => id));
  return entries.filter(
    (entry) => !gone.includes(entry) && !ids.has(mendingTakenBack(entry) ?? ''),
  );
}

/** What says something of the trouble, or of its end. */
const OF_TROUBLE = /\/(mendings|walk-tests|reports|looks|readings|findings|withdraw)$/;

/** Whether a mending is the last that was said of a ticket: what comes next is to prove it. */
export function isToBeProven(
  { id, state }: { id: string; state: string },
  untold: readonly OutboxEntry[],
): boolean {
  const last = untold
    .filter(({ subject, ...one }) => subject.ticketId === id && one.state !== 'refused')
    .filter(({ path }) => OF_TROUBLE.test(path))
    .at(-1);
  if (last !== undefined) return last.path.endsWith('/mendings');
  return state === 'mended' || state === 'bridged';
}

/** The last mending of a ticket that stands, of the kit's and of those that it does not tell of yet; undefined: there is none. */
export function lastMended(
  { notes, ticketId }: Pick<ReadKit, 'notes' | 'ticketId'>,
  untold: readonly OutboxEntry[],
): Mended | undefined {
  const own = untold.filter(
    ({ subject, state }) => subject.ticketId === ticketId && state !== 'refused',
  );
  const taken = own.map(mendingTakenBack);
  // A kit that an older app kept tells of no mending by its id.
  const known = notes.flatMap(({ mendingId, words, saidBy, happenedAt }) =>
    mendingId == null ? [] : { id: mendingId, words, by: saidBy, at: happenedAt },
  );
  const entered = own
    .filter(({ path }) => path.endsWith('/mendings'))
    .map(({ id, words, personName, happenedAt }) => {
      return { id, words, by: personName, at: happenedAt };
    });
  return [...known, ...entered].filter(({ id }) => !taken.includes(id)).at(-1);
}
