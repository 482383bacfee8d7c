import { since } from '../parts/time-words.js';
import type { DeskTicket, ShownTicket } from '../parts/wire.js';
import { DESK_WORDS } from './words/words.js';

export function whoGoes(going: DeskTicket['going'], day: (day: string) => string): string {
  if (going === null) return DESK_WORDS.nobodyGoes;
  const who = going.technician ?? DESK_WORDS.nobodyNamed;
  return going.isThere ? DESK_WORDS.isThere(who) : DESK_WORDS.goesOn(who, day(going.on));
}

/** Where somebody goes, nobody reads that nobody has decided. */
export function stateInWords(state: ShownTicket['state'], isGoing: boolean): string {
  return state === 'reported' && isGoing ? DESK_WORDS.onlyReported : DESK_WORDS.states[state];
}

/** What goes on in a sentence, as a line of its own. */
export function asHeadline(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Of what is due next: "40 min left", "2 h over". */
export function timeLeft(
  { state, dueAt }: NonNullable<DeskTicket['nextPromise']>,
  now: Date,
): string {
  if (dueAt === null || state === 'paused') return DESK_WORDS.clockStopped;
  const isOver = Date.parse(dueAt) <= now.getTime();
  return isOver
    ? DESK_WORDS.over(since(dueAt, now))
    : DESK_WORDS.left(since(now.toISOString(), new Date(dueAt)));
}
