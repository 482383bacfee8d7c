import { type ClockEntry, keptAfterAll } from './log-lines.js';
import { atSite } from '../../parts/time-words.js';
import type { CauseOf, NameStation } from './cause-of.js';
import type { ReadLogEntry, ReadTicketClock, ShownTicket } from '../../parts/wire.js';
import { DRAWING_WORDS, percent } from '../../parts/drawing/drawing-words.js';
import type { FunctionName } from '#app/locator/index.js';
import { wordsOfQuestion } from '#app/reports/office-questions.js';
import { type ToldCause, wordsIn } from '#app/words/index.js';
import { PAUSED_FOR, TROUBLE_WORDS } from '../contracts/contract-sentences.js';
import { PAGE_LANGUAGE } from '../../parts/language.js';
import { CONTRACT_WORDS, DESK_WORDS, TICKET_WORDS } from '../words/words.js';

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
      return mode === undefined ? words.headEnd : asTold({ kind, mode });
    case 'port':
      return words.port(trunk);
    case 'short':
      return words.short(trunk);
    case 'station':
      return unitInWords(nameOf(trunk, node), mode);
    case 'weak-feed':
      return words.weakFeed(trunk);
    case 'nothing':
      return words.nothing;
    case 'rest':
      return words.rest;
  }
}

type UnitMode = Extract<ToldCause, { kind: 'own-unit' }>['mode'];

/** What the answers of the service say of it, in the page’s language. */
function asTold(cause: ToldCause): string {
  return wordsIn(PAGE_LANGUAGE).answer.cause(cause, (_trunk, node) => node);
}

function unitInWords(name: string, mode: string | undefined): string {
  if (mode === undefined) return TICKET_WORDS.places.station(name);
  return `${name}: ${asTold({ kind: 'own-unit', node: name, mode: mode as UnitMode })}`;
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

/** What an entry says of a clock: one of a few reasons, what shows it, of which class the trouble is, why it was late. */
function clockSaid({ kind, details }: ReadLogEntry): (string | null | undefined)[] {
  const { reason, evidence, troubleClass, cause } = details;
  const why = kind === 'pause' ? PAUSED_FOR[reason as keyof typeof PAUSED_FOR] : reason;
  const how = troubleClass && TROUBLE_WORDS[troubleClass as keyof typeof TROUBLE_WORDS];
  return [how, why, evidence, cause];
}

/** What a report says besides its rooms. */
function reportSaid({ details }: ReadLogEntry): (string | null | undefined)[] {
  const { urgentReason, oddities = [] } = details;
  return [
    ...oddities.map((oddity) => TICKET_WORDS.oddities[oddity]),
    urgentReason && DESK_WORDS.urgent(urgentReason),
  ];
}

/** What a reckoning brought of promised times: "Not kept as promised: somebody there by 2 Mar, 12:00; works again by …". */
export function clockNewsInWords(
  news: readonly ClockEntry[],
  { zone, promises }: Pick<ReadTicketClock, 'zone' | 'promises'>,
): string {
  const words = TICKET_WORDS;
  const told = news.map(({ details: { promise = 'response', dueAt, wasDueAt } }) => {
    const name = promiseInWords(promise);
    if (dueAt == null) return words.dueNever(name);
    const at = atSite(dueAt, zone);
    return wasDueAt == null
      ? words.dueBy(name, at)
      : words.dueInstead(name, at, atSite(wasDueAt, zone));
  });
  const [first] = news;
  if (first === undefined) return '';
  const kept = keptAfterAll(news, promises).map(promiseInWords).join('; ');
  const said = words.entries[first.kind](told.join('; '));
  return kept === '' ? said : `${said}. ${words.keptAfterAll(kept)}`;
}

function promiseInWords(promise: 'response' | 'restore'): string {
  return CONTRACT_WORDS.promises[promise].toLocaleLowerCase(PAGE_LANGUAGE);
}

/** An entry of the log: who did what. `learned`: what it brought. */
export function entryInWords(entry: ReadLogEntry, learned: string, nameOf: NameStation): string {
  const { kind, saidBy, details } = entry;
  const { entries, movedTo } = TICKET_WORDS;
  const did = entries[kind](saidBy);
  const { to } = details;
  const state =
    to === undefined ? '' : (DESK_WORDS.states[to as ShownTicket['state']] ?? plain(to));
  const answer = answerSaid(details, nameOf);
  const what = details.what === undefined ? '' : `: ${details.what}`;
  const besides = [...clockSaid(entry), ...reportSaid(entry)];
  const more = [learned, details.note, ...besides].filter(Boolean).join('; ');
  const moved = to === undefined ? did : movedTo(did, state);
  return `${moved}${answer}${what}${more === '' ? '' : `. ${more}`}`;
}

/** What was asked, as the office reads it; what is no longer asked stands as it was kept. */
function answerSaid(
  { question = '', answer }: ReadLogEntry['details'],
  nameOf: NameStation,
): string {
  if (answer === undefined) return '';
  const asked = wordsOfQuestion(question, nameOf, wordsIn(PAGE_LANGUAGE))?.text ?? question;
  return `: ${asked} ${TICKET_WORDS.answers[answer]}`;
}

/** "was 42 %, would be 71 %". */
export function movedInWords(before: number, after: number): string {
  return `${percent(before) || '0 %'} → ${percent(after) || '0 %'}`;
}
