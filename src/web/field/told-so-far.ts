import type { FunctionName } from '#app/locator/index.js';
import { wordsIn } from '#app/words/index.js';
import { PAGE_LANGUAGE, PAGE_WORDS } from '../parts/language.js';
import { type LookablePart, partInWords } from '../parts/lookable-parts.js';
import { MEASURED } from '../parts/typed-number.js';
import type { ReadKit, ReadKitInWords } from '../parts/wire.js';
import { endingInWords } from './entries-of.js';
import { FIELD_WORDS } from './field-words.js';
import { nameNodesIn } from './kit-node-field.js';
import type { OutboxEntry } from './outbox.js';

/** Something that was said of a ticket, by whomever. */
export interface ToldSoFar {
  at: string;
  by: string;
  words: string;
  /** The service does not have it yet. */
  waits: boolean;
}

interface Row {
  period: number;
  withdrawalId: string | null;
}

interface HeardRow extends Row {
  trunk: string;
  node: string;
  function: FunctionName;
  outcome: 'works' | 'weak' | 'fails';
  disconnectedBelow?: string | null;
  saidBy: string;
  observedAt: string;
}

interface LookRow extends Row, Pick<LookablePart, 'place' | 'part' | 'group'> {
  seen: 'sound' | 'faulty';
  saidBy: string;
  lookedAt: string;
}

interface ReadRow extends Row {
  reading: { kind: string; trunk: string; node?: string; volts?: number; ohms?: number };
  takenBy: string;
  takenAt: string;
}

interface Evidence {
  ticket: { period: number };
  heard: HeardRow[];
  looks: LookRow[];
  readings: ReadRow[];
}

const CALLED = { words: wordsIn(PAGE_LANGUAGE), settings: FIELD_WORDS.settings };

/** Since the last mending, newest first: what the kit knows, and what was entered here since. */
export function toldSoFar(
  kit: ReadKit,
  ticketId: string,
  untold: readonly OutboxEntry[],
): ToldSoFar[] {
  const { ticket, heard, looks, readings } = kit.evidence as Evidence;
  const nameOf = nameNodesIn(kit);
  const stands = (row: Row) => row.withdrawalId === null && row.period === ticket.period;
  const known = [
    ...heard
      .filter(stands)
      .map((one) => told(one.observedAt, one.saidBy, heardInWords(one, nameOf))),
    ...looks.filter(stands).map((one) => told(one.lookedAt, one.saidBy, lookInWords(one, nameOf))),
    ...readings
      .filter(stands)
      .map((one) => told(one.takenAt, one.takenBy, readInWords(one, nameOf))),
    // A kit that an older app kept has none.
    ...((kit.notes as typeof kit.notes | undefined) ?? []).map((one) =>
      told(one.happenedAt, one.saidBy, one.words),
    ),
  ];
  return newestFirst([...known, ...enteredHere(ticketId, untold)]);
}

/** The same of a ticket that is known in words alone. */
export function toldInWords(
  { said }: ReadKitInWords,
  ticketId: string,
  untold: readonly OutboxEntry[],
): ToldSoFar[] {
  const known = said.map(({ happenedAt, saidBy, words, oddities, callBackPhone }) => {
    const odd = oddities.map((one) => FIELD_WORDS.oddities[one]);
    const back = callBackPhone === null ? [] : [FIELD_WORDS.callBack(callBackPhone)];
    return told(happenedAt, saidBy, [words, ...odd, ...back].filter(Boolean).join('. '));
  });
  return newestFirst([...known, ...enteredHere(ticketId, untold)]);
}

function enteredHere(ticketId: string, untold: readonly OutboxEntry[]): ToldSoFar[] {
  return untold
    .filter(({ subject, path }) => subject.ticketId === ticketId && !path.endsWith('/moves'))
    .map(({ happenedAt, personName, words, state }) => {
      return { at: happenedAt, by: personName, words, waits: state !== 'taken' };
    });
}

function newestFirst(all: readonly ToldSoFar[]): ToldSoFar[] {
  return all
    .filter(({ words }) => words !== '')
    .sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
}

function told(at: string, by: string, words: string): ToldSoFar {
  return { at, by, words, waits: false };
}

type NameOf = ReturnType<typeof nameNodesIn>;

function heardInWords(one: HeardRow, nameOf: NameOf): string {
  const { trunk, node, function: name, outcome, disconnectedBelow: off } = one;
  const { tried, [outcome]: sounded } = PAGE_WORDS.functions[name];
  return off == null
    ? FIELD_WORDS.heardWords(nameOf(trunk, node), tried, sounded)
    : FIELD_WORDS.heardOffWords(nameOf(trunk, node), tried, sounded, nameOf(trunk, off));
}

function lookInWords({ place, part, group, seen }: LookRow, nameOf: NameOf): string {
  const component = part as LookablePart['component'];
  const { sound, atFault } = CALLED.words.walk;
  return endingInWords(
    partInWords({ place, part, group, component }, CALLED, nameOf),
    seen === 'sound' ? sound : atFault,
  );
}

/** Of what technicians read on site; other kinds are on the desk. */
function readInWords({ reading }: ReadRow, nameOf: NameOf): string {
  const { kind, trunk, node, volts, ohms } = reading;
  if (kind === 'supply-volts' && node !== undefined)
    return FIELD_WORDS.readingWords(nameOf(trunk, node), `${volts} ${MEASURED[kind].unit}`);
  if (kind === 'loop-ohms')
    return FIELD_WORDS.readingWords(PAGE_WORDS.line(trunk), `${ohms} ${MEASURED[kind].unit}`);
  return '';
}
