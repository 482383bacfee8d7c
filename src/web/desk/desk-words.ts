import { since } from '../parts/time-words.js';
import type { DeskTicket } from '../parts/wire.js';

/** Every sentence of the desk in one pure file. */
export const DESK_WORDS = {
  places: 'Desk',
  silentNow: 'Silent now',
  takeCall: 'Take a call',
  sites: 'Sites',
  firm: 'The firm',
  signIn: 'Sign in',
  signInFirst: 'Please sign in',
  signInWhy: 'The desk is for people of the firm.',
  sessionOver: 'Your session is over',
  sessionOverWhy:
    'Sign in again and you come back to this page. What was sent is kept; what was not sent is not.',
  failed: 'This did not work just now',
  again: 'Try again',
  nothingHere: 'There is nothing here',
  backToNow: 'What is silent now',
  nothingSilent: 'Nothing is silent.',
  nothingSilentMore: 'New reports appear here by themselves.',
  soundOff: 'Sound a tone for new reports',
  soundOn: 'No tone for new reports',
  nobodyGoes: 'Nobody goes yet',
  notWorkedOut: 'Not worked out yet',
  emergency: 'Carries emergency calls',
} as const;

export function ticketCount(count: number): string {
  return count === 1 ? '1 ticket is open' : `${count} tickets are open`;
}

export function newReports(count: number): string {
  return count === 1 ? '1 new ticket' : `${count} new tickets`;
}

export function moreThanShown(more: number): string {
  return `${more} more are open than are shown: those that wait longest are here.`;
}

export function roomsSilent(count: number): string {
  return count === 1 ? '1 room' : `${count} rooms`;
}

export const STATE_WORDS: Readonly<Record<DeskTicket['state'], string>> = {
  reported: 'reported, nobody has decided yet',
  'to-visit': 'somebody must go',
  'at-work': 'being worked on',
  bridged: 'works for now, to be mended for good',
  mended: 'mended, to be tried in every room',
  closed: 'closed',
  merged: 'joined to another ticket',
};

export function whoGoes(going: DeskTicket['going'], day: (day: string) => string): string {
  if (going === null) return DESK_WORDS.nobodyGoes;
  const who = going.technician ?? 'Nobody named';
  return going.isThere ? `${who}, there now` : `${who}, ${day(going.on)}`;
}

/** What goes on in a sentence, as a line of its own. */
export function asHeadline(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export const PROMISE_WORDS = {
  response: 'until somebody must be there',
  restore: 'until it must work again',
} as const;

/** Of what is due next: "40 min left", "2 h over". */
export function timeLeft(
  { state, dueAt }: NonNullable<DeskTicket['nextPromise']>,
  now: Date,
): string {
  if (dueAt === null || state === 'paused') return 'The clock is stopped';
  const isOver = Date.parse(dueAt) <= now.getTime();
  return isOver ? `${since(dueAt, now)} over` : `${since(now.toISOString(), new Date(dueAt))} left`;
}
