import type { RequestReading } from '../locator/index.js';
import type { InformantKind } from '../plan/error-rates.js';
import { informantOf } from '../reports/observation.js';
import type { RecordedElectrical } from './recorded-electrical.js';
import { stands } from '../reports/withdrawal.js';
import { asEvidence } from './entered-reading.js';
import type { LeftOut } from '../words/index.js';

/** A reading about a ticket, as the rules of this folder read it. */
export interface TakenReading {
  id: string;
  reading: RequestReading;
  takenBy: string;
  takenByKind: InformantKind;
  takenAt: Date;
  period: number;
  /** The log entry that withdrew it; null where nobody did. */
  withdrawalId: string | null;
}

/** A reading that a location does not use, and why. */
export interface LeftOutReading {
  id: string;
  why: LeftOut;
}

/** What is to be explained: which period between mendings, and what ended those before it. */
export interface Period {
  period: number;
  /** When the ticket was last closed. */
  closedAt: Date | null;
  /** When it was mended, oldest first. */
  mendedAt: readonly Date[];
  /** Mendings before these, of the ticket that it was split from. */
  before: number;
}

/** Which period something belongs to that was on no ticket's log, as on a visit. */
export function periodAt(
  at: Date,
  { mendedAt, before }: Pick<Period, 'mendedAt' | 'before'>,
): number {
  return before + mendedAt.filter((mended) => mended < at).length;
}

export interface ChosenReadings {
  /** Oldest first. */
  chosen: TakenReading[];
  leftOut: LeftOutReading[];
}

/** A row as far as it says something about a ticket: its own has its period, one of a visit the period it was taken in. */
export type ReadAbout = Omit<TakenReading, 'reading' | 'period'> &
  Parameters<typeof asEvidence>[0] & { period: number | null };

/** What was read about a ticket as evidence, and what of it cannot be; other kinds are passed over. */
export function takenAbout(
  rows: readonly ReadAbout[],
  when: Pick<Period, 'mendedAt' | 'before'>,
): { taken: TakenReading[]; leftOut: LeftOutReading[] } {
  const taken: TakenReading[] = [];
  const leftOut: LeftOutReading[] = [];
  for (const row of rows) {
    const reading = asEvidence(row);
    if (reading === null) continue;
    const { id, period } = row;
    if ('reason' in reading) leftOut.push({ id, why: { kind: 'refused', reason: reading.reason } });
    else taken.push({ ...row, reading, period: period ?? periodAt(row.takenAt, when) });
  }
  return { taken, leftOut };
}

/**
 * Of a ticket's readings those that say something about what is to be explained: not withdrawn, of the same period as the
 * observations, after the last closing, and of what one person read several times the last.
 */
export function choosableReadings(
  taken: readonly TakenReading[],
  { period, closedAt }: Pick<Period, 'period' | 'closedAt'>,
  recorded: RecordedElectrical,
): ChosenReadings {
  const leftOut: LeftOutReading[] = [];
  const last = new Map<string, TakenReading>();
  for (const one of [...taken].sort(byTime)) {
    const why = whyNot(one, period, closedAt, recorded);
    if (why !== null) {
      leftOut.push({ id: one.id, why });
      continue;
    }
    const key = `${informantOf({ saidBy: one.takenBy, saidByKind: one.takenByKind })} ${whatWasRead(one.reading)}`;
    const earlier = last.get(key);
    if (earlier !== undefined) leftOut.push({ id: earlier.id, why: { kind: 'read-again' } });
    last.set(key, one);
  }
  return { chosen: [...last.values()].sort(byTime), leftOut };
}

function whyNot(
  taken: TakenReading,
  period: number,
  closedAt: Date | null,
  recorded: RecordedElectrical,
): LeftOut | null {
  const { reading, takenAt, period: own } = taken;
  if (!stands(taken)) return { kind: 'withdrawn' };
  if (own < period) return { kind: 'before-mending' };
  if (own > period) return { kind: 'after-mending' };
  if (closedAt !== null && takenAt <= closedAt) return { kind: 'before-closing' };
  if (reading.kind === 'continuity' || 'electrical' in recorded) return null;
  return { kind: 'not-on-record', missing: recorded.missing };
}

/** What a later reading of the same person takes the place of. */
function whatWasRead(reading: RequestReading): string {
  if (reading.kind === 'supply-volts')
    return JSON.stringify([reading.kind, reading.trunk, reading.node]);
  if (reading.kind === 'loop-ohms')
    return JSON.stringify([reading.kind, reading.trunk, reading.core]);
  const { kind, trunk, from, to, cores } = reading;
  return JSON.stringify([kind, trunk, from ?? null, to, [...cores].sort()]);
}

/** Oldest first; what was taken at once, in an order that is always the same. */
function byTime(a: TakenReading, b: TakenReading): number {
  return a.takenAt.getTime() - b.takenAt.getTime() || (a.id < b.id ? -1 : 1);
}
