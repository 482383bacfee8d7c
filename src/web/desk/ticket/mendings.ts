import type { ReadLogEntry } from '../../parts/wire.js';
import { REVIEW_WORDS } from '../contracts/review-words.js';
import type { LearnedThing } from './learned.js';

/** Every mending of a ticket's log, oldest first, also those that were taken back. */
export function mendingsIn(log: readonly ReadLogEntry[], ticketId: string): LearnedThing[] {
  return log
    .filter(({ kind }) => kind === 'mending' || kind === 'withdrawn-mending')
    .map((entry) => ({
      id: entry.id,
      words: mendedInWords(entry),
      by: entry.saidBy,
      at: entry.happenedAt,
      note: entry.details.note ?? null,
      withdrawal: withdrawalOf(entry, log),
      leftOut: undefined,
      // One of a ticket that was merged into this one is in that one's log.
      path: entry.ticketId === ticketId ? `mendings/${entry.id}` : null,
    }));
}

function mendedInWords({ details }: ReadLogEntry): string {
  const { what = '–', mending = 'lasting', parts = [] } = details;
  const used = parts.map(({ name, quantity }) => `${quantity} × ${name}`).join(', ');
  const told = REVIEW_WORDS.mended(what, mending);
  return used === '' ? told : `${told} (${used})`;
}

function withdrawalOf(
  { id, kind }: ReadLogEntry,
  log: readonly ReadLogEntry[],
): LearnedThing['withdrawal'] {
  if (kind === 'mending') return null;
  const entry = log.find(({ details }) => details.mendingIds?.includes(id) === true);
  return entry === undefined ? null : { ...entry, reason: entry.details.reason ?? '' };
}
