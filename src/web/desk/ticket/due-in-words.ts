import { atSite } from '../../parts/time-words.js';
import type { ReadTicketClock } from '../../parts/wire.js';
import { PROMISE_WORDS } from '../words/words.js';

/** "Due 4 Mar, 11:20; done 4 Mar, 10:05;": when it was done, if it was. */
export function dueInWords(
  { dueAt, doneAt }: ReadTicketClock['promises'][number],
  zone: string,
): string {
  const due = dueAt === null ? PROMISE_WORDS.dueNever : PROMISE_WORDS.due(atSite(dueAt, zone));
  return doneAt === null ? due : PROMISE_WORDS.done(due, atSite(doneAt, zone));
}
