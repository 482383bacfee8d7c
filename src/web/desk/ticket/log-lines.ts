import type { ReadLogEntry, ReadTicketClock } from '../../parts/wire.js';

/** What comes of one reckoning of a clock is written down within this. */
const AT_ONCE_MS = 1000;

type ClockEntryKind = Extract<ReadLogEntry['kind'], `promise-${string}`>;

const KINDS: readonly ClockEntryKind[] = ['promise-changed', 'promise-warning', 'promise-breach'];

/** An entry that tells of promised times, which nobody wrote. */
export interface ClockEntry extends ReadLogEntry {
  kind: ClockEntryKind;
}

/** Entries that say one thing; the first stands for when. */
export type LogLine = readonly [ReadLogEntry, ...ReadLogEntry[]];

export function isOfClock(entry: ReadLogEntry): entry is ClockEntry {
  return entry.kind.startsWith('promise-');
}

/** A log with one line for one fact: what a reckoning brought of several promises stands together. */
export function logLines(log: readonly ReadLogEntry[]): LogLine[] {
  const lines: LogLine[] = [];
  let reckoned: ClockEntry[] = [];
  for (const entry of log) {
    if (isOfClock(entry)) {
      const [first] = reckoned;
      if (first !== undefined && !isAtOnce(first, entry)) {
        lines.push(...byKind(reckoned));
        reckoned = [];
      }
      reckoned.push(entry);
      continue;
    }
    lines.push(...byKind(reckoned), [entry]);
    reckoned = [];
  }
  return [...lines, ...byKind(reckoned)];
}

function isAtOnce(one: ReadLogEntry, other: ReadLogEntry): boolean {
  return Math.abs(Date.parse(one.happenedAt) - Date.parse(other.happenedAt)) < AT_ONCE_MS;
}

/** Where a promise was not kept, that it was due at another time just before says nothing more. */
function byKind(entries: readonly ClockEntry[]): LogLine[] {
  const unkept = new Set(
    entries.filter(({ kind }) => kind === 'promise-breach').map(({ details }) => details.promise),
  );
  const told = entries.filter(
    ({ kind, details }) => kind !== 'promise-changed' || !unkept.has(details.promise),
  );
  return KINDS.flatMap((kind): LogLine[] => {
    const [first, ...rest] = told.filter((entry) => entry.kind === kind);
    return first === undefined ? [] : [[first, ...rest]];
  });
}

/** Promises that were told of as not kept, and were kept by what was entered later, as from a phone that had no signal. */
export function keptAfterAll(
  line: readonly ClockEntry[],
  promises: ReadTicketClock['promises'],
): ReadTicketClock['promises'][number]['promise'][] {
  const unkept = line.flatMap(({ kind, details }) =>
    kind === 'promise-breach' ? [details.promise] : [],
  );
  return promises
    .filter(({ promise, state }) => state === 'met' && unkept.includes(promise))
    .map(({ promise }) => promise);
}
