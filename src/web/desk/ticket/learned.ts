import type { FunctionName } from '#app/locator/index.js';
import { wordsIn } from '#app/words/index.js';
import type { NameStation } from './cause-of.js';
import { PAGE_LANGUAGE } from '../../parts/language.js';
import { DRAWING_WORDS } from '../../parts/drawing/drawing-words.js';
import type { SaidOutcome } from '../../parts/drawing/drawn-facts.js';
import type { ReadLogEntry, ReadLook, ReadReading, ToldThing } from '../../parts/wire.js';
import { nameOfPart } from './look-entry.js';
import { EVIDENCE_WORDS, TICKET_WORDS } from '../words/words.js';
import { MEASURED } from '../../parts/typed-number.js';
import type { LookablePart } from '../../parts/lookable-parts.js';

/** One thing that was learned of a ticket, as it is listed. */
export interface LearnedThing {
  id: string;
  words: string;
  by: string;
  at: string;
  note: string | null;
  withdrawal: ToldThing['withdrawal'];
  /** Why nothing goes by it; undefined where something does. */
  leftOut: string | undefined;
  /** Where it is taken back; null: it belongs to a visit, and is not taken back here. */
  path: string | null;
}

/** Why each that is not gone by is not. */
export type LeftOutOf = ReadonlyMap<string, string>;

export function heardOf(told: ToldThing, nameOf: NameStation, leftOut: LeftOutOf): LearnedThing {
  const { id, trunk, node, disconnectedBelow, saidBy, observedAt, withdrawal } = told;
  const tried = DRAWING_WORDS.functions[told.function as FunctionName];
  const outcome = DRAWING_WORDS.marks[told.outcome as SaidOutcome];
  const heard = EVIDENCE_WORDS.heardOf(nameOf(trunk, node), tried, outcome);
  const words =
    disconnectedBelow === null
      ? heard
      : EVIDENCE_WORDS.cableOff(heard, nameOf(trunk, disconnectedBelow));
  const path = `observations/${id}`;
  const leftOutOf = leftOut.get(id);
  return {
    id,
    words,
    by: saidBy,
    at: observedAt,
    note: null,
    withdrawal,
    leftOut: leftOutOf,
    path,
  };
}

export function readingOff(
  read: ReadReading,
  nameOf: NameStation,
  leftOut: LeftOutOf,
): LearnedThing {
  const { id, takenBy, takenAt, note, withdrawal, ticketId } = read;
  return {
    id,
    words: readingInWords(read, nameOf),
    by: takenBy,
    at: takenAt,
    note,
    withdrawal,
    leftOut: leftOut.get(id),
    path: ticketId === null ? null : `readings/${id}`,
  };
}

/** What came off a meter, as evidence, and as what is only kept. */
function readingInWords(read: ReadReading, nameOf: NameStation): string {
  const { reading, trunk, node, place, value, unit, uncertainty } = read;
  if (reading !== null) return evidenceInWords(reading, nameOf);
  const at = place ?? (node === null ? (trunk ?? '') : nameOf(trunk ?? '', node));
  return EVIDENCE_WORDS.other(at, measured(read.entered ?? value, unit ?? '', uncertainty));
}

type EvidenceRead = NonNullable<ReadReading['reading']>;

export function evidenceInWords(read: EvidenceRead, nameOf: NameStation): string {
  const { kind, trunk, node, core = 'supply', cores = [], from, to, passes = false } = read;
  switch (kind) {
    case 'supply-volts':
      return EVIDENCE_WORDS.volts(
        nameOf(trunk, node),
        measured(read.volts, MEASURED[kind].unit, read.uncertaintyVolts),
      );
    case 'loop-ohms':
      return EVIDENCE_WORDS.ohms(
        EVIDENCE_WORDS.cores[core],
        trunk,
        measured(read.ohms, MEASURED[kind].unit, read.uncertaintyOhms),
      );
    case 'continuity':
      return EVIDENCE_WORDS.continuity(
        cores.map((one) => EVIDENCE_WORDS.cores[one]).join(', '),
        from == null ? EVIDENCE_WORDS.fromHeadEnd : nameOf(trunk, from),
        nameOf(trunk, to),
        passes,
      );
  }
}

function measured(
  value: number | string | null | undefined,
  unit: string,
  uncertainty: number | null | undefined,
): string {
  return EVIDENCE_WORDS.value(
    String(value ?? ''),
    unit,
    uncertainty == null ? null : String(uncertainty),
  );
}

export function lookAt(look: ReadLook, nameOf: NameStation, leftOut: LeftOutOf): LearnedThing {
  const { id, saidBy, lookedAt, note, withdrawal, ticketId } = look;
  return {
    id,
    words: seenInWords(look, nameOf),
    by: saidBy,
    at: lookedAt,
    note,
    withdrawal,
    leftOut: leftOut.get(id),
    path: ticketId === null ? null : `looks/${id}`,
  };
}

export function seenInWords(
  { place, part, group, seen }: Pick<ReadLook, 'place' | 'part' | 'group' | 'seen'>,
  nameOf: NameStation,
): string {
  const component = place.kind === 'span' ? part : place.kind;
  const looked = { place, part, group, component } as Omit<LookablePart, 'mode'>;
  return EVIDENCE_WORDS.seen(nameOfPart(looked, nameOf), EVIDENCE_WORDS[seen]);
}

/** What an entry of the log brought. */
export function broughtInWords({ kind, details }: ReadLogEntry, nameOf: NameStation): string {
  const { reading, looks = [] } = details;
  const brought = [
    ...(kind === 'finding' ? [foundInWords(details, nameOf)] : []),
    ...(reading === undefined ? [] : [evidenceInWords(reading, nameOf)]),
    ...looks.map((one) => seenInWords(one, nameOf)),
  ];
  return brought.join('; ');
}

/** A finding names the part of a span, and of anything else how it failed; where that is not known, its place alone. */
function foundInWords(
  { place, component, mode }: ReadLogEntry['details'],
  nameOf: NameStation,
): string {
  if (place == null) return TICKET_WORDS.foundNothing;
  const part = (place.kind === 'span' ? component : mode) ?? null;
  if (part === null && place.kind !== 'station')
    return EVIDENCE_WORDS.seen(wordsIn(PAGE_LANGUAGE).place(place, nameOf), EVIDENCE_WORDS.faulty);
  return seenInWords({ place, part: part ?? 'unit', group: null, seen: 'faulty' }, nameOf);
}
