import type { CauseOf, NameStation } from './cause-of.js';
import type { ReadLogEntry, ShownTicket } from '../../parts/wire.js';
import { DRAWING_WORDS, percent } from '../../parts/drawing/drawing-words.js';
import type { FunctionName } from '#app/locator/index.js';
import { DESK_WORDS, TICKET_WORDS } from '../words/words.js';

export function pointInWords(name: string, tried: string): string {
  return TICKET_WORDS.point(name, DRAWING_WORDS.functions[tried as FunctionName]);
}

/** A cause as it is read: "the incoming terminals at Room 13". */
export function causeInWords(cause: CauseOf, nameOf: NameStation): string {
  const { kind, mode, trunk = '', node } = cause;
  const words = TICKET_WORDS.causes;
  switch (kind) {
    case 'span':
      return spanInWords(cause, nameOf);
    case 'head-end':
      return mode === undefined ? words.headEnd : words.headEndMode(plain(mode));
    case 'port':
      return words.port(trunk);
    case 'short':
      return words.short(trunk);
    case 'station':
      return words.station(nameOf(trunk, node), plain(mode ?? ''));
    case 'weak-feed':
      return words.weakFeed(trunk);
    case 'nothing':
      return words.nothing;
    case 'rest':
      return words.rest;
  }
}

function spanInWords({ trunk, from, to, component }: CauseOf, nameOf: NameStation): string {
  const words = TICKET_WORDS.causes;
  const above = from == null ? words.headEnd : nameOf(trunk, from);
  const below = nameOf(trunk, to);
  switch (component) {
    case 'junction-out':
      return words.outgoing(above);
    case 'junction-in':
      return words.incoming(below);
    case 'cable':
    case undefined:
      return words.cable(above, below);
  }
}

function plain(name: string): string {
  return name.replaceAll('-', ' ');
}

type EntryKind = keyof typeof TICKET_WORDS.entries;

/** An entry of the log: who did what. `learned`: what it brought. */
export function entryInWords({ kind, saidBy, details }: ReadLogEntry, learned: string): string {
  const { entries, movedTo } = TICKET_WORDS;
  const did = kind in entries ? entries[kind as EntryKind](saidBy) : `${saidBy}: ${plain(kind)}`;
  const { to } = details;
  const state =
    to === undefined ? '' : (DESK_WORDS.states[to as ShownTicket['state']] ?? plain(to));
  const answer =
    details.answer === undefined ? '' : `: ${details.question ?? ''} ${details.answer}`;
  const what = details.what === undefined ? '' : `: ${details.what}`;
  const more = [learned, details.note, details.reason].filter(Boolean).join('; ');
  const entry = to === undefined ? did : movedTo(did, state);
  return `${entry}${answer}${what}${more === '' ? '' : `. ${more}`}`;
}

/** "was 42 %, would be 71 %". */
export function movedInWords(before: number, after: number): string {
  return `${percent(before) || '0 %'} → ${percent(after) || '0 %'}`;
}
