import type { LOOP_CORES, RequestReading } from '../locator/index.js';
import type { FieldError } from '../shared/domain-error.js';

/** The units of each kind that is entered on a visit, the usual one first; of `other`, whatever the meter says. */
export const READING_UNITS = {
  'supply-volts': ['V'],
  'loop-ohms': ['ohm'],
  'insulation-megohms': ['Mohm'],
  'sound-level-db': ['dB', 'dB(A)', 'dB(C)'],
  other: null,
} as const satisfies Record<string, readonly [string, ...string[]] | null>;

export type EnteredKind = keyof typeof READING_UNITS;

export const ENTERED_KINDS = Object.keys(READING_UNITS) as EnteredKind[];

export type ReadingKind = EnteredKind | RequestReading['kind'];

/** On a ticket a test of continuity may be sent too. */
export const ALL_READING_KINDS: readonly ReadingKind[] = [...ENTERED_KINDS, 'continuity'];

export type EnteredLoopCore = (typeof LOOP_CORES)[number];

/**
 * A number as it is read off a meter: "23.1", "23,1", "-0.02". A point always begins the decimals;
 * a comma does too, unless it could as well part the thousands ("1,200").
 */
export function parseReading(entered: string): { value: number } | { reason: string } {
  const match = /^[+-]?(\d+)(?:([.,])(\d+))?$/.exec(entered.trim().replace('\u2212', '-'));
  if (match === null) return { reason: 'is not a number such as 23.1' };
  const [number, whole = '', mark, decimals = ''] = match;
  if (mark === ',' && decimals.length === 3 && Number(whole) !== 0 && whole.length <= 3) {
    const plain = `${whole}${decimals} or ${whole}.${decimals}`;
    return { reason: `could be thousands or thousandths; write ${plain}` };
  }
  const value = Number(number.replace(',', '.'));
  return Number.isFinite(value) ? { value } : { reason: 'is too large to be a reading' };
}

/** The unit that is meant, or why there is none: left out, it is the usual one of the kind. */
export function readUnit(
  kind: EnteredKind,
  unit: string | null,
): { unit: string } | { reason: string } {
  const known: readonly [string, ...string[]] | null = READING_UNITS[kind];
  const given = unit?.trim() || null;
  if (known === null) {
    return given === null ? { reason: 'is missing: say what it was measured in' } : { unit: given };
  }
  if (given === null) return { unit: known[0] };
  return known.includes(given)
    ? { unit: given }
    : { reason: `of ${kind} can be: ${known.join(', ')}` };
}

interface Entered {
  kind: EnteredKind;
  trunk: string | null;
  node: string | null;
  place: string | null;
  core: EnteredLoopCore | null;
  entered: string;
  unit: string | null;
}

/** What a number and its unit mean; all that is wrong with it is named at once. */
export function readEntered(
  sent: Entered,
): { value: number; unit: string } | { errors: FieldError[] } {
  const number = parseReading(sent.entered);
  const unit = readUnit(sent.kind, sent.unit);
  const errors: FieldError[] = [];
  if (sent.trunk === null && sent.place === null) {
    errors.push({
      field: '/place',
      reason: 'say where: a trunk, a trunk and its node, or a place',
    });
  }
  if (sent.trunk === null && sent.node !== null) {
    errors.push({ field: '/trunk', reason: 'is missing: a node is a node of a trunk' });
  }
  if (sent.core !== null && sent.kind !== 'loop-ohms') {
    errors.push({ field: '/core', reason: 'belongs to a reading of kind loop-ohms' });
  }
  if ('reason' in number) errors.push({ field: '/entered', reason: number.reason });
  if ('reason' in unit) errors.push({ field: '/unit', reason: unit.reason });
  return 'reason' in number || 'reason' in unit || errors.length > 0
    ? { errors }
    : { value: number.value, unit: unit.unit };
}

/** The columns of a reading that was sent as the locator takes it. */
export function columnsOf(reading: RequestReading) {
  const { kind, trunk } = reading;
  const none = { node: null, core: null, value: null, unit: null, uncertainty: null };
  switch (kind) {
    case 'supply-volts': {
      const { node, volts: value, uncertaintyVolts: uncertainty } = reading;
      return { ...none, kind, trunk, node, value, unit: 'V', uncertainty };
    }
    case 'loop-ohms': {
      const { core, ohms: value, uncertaintyOhms: uncertainty } = reading;
      return { ...none, kind, trunk, core, value, unit: 'ohm', uncertainty };
    }
    case 'continuity':
      return { ...none, kind, trunk, node: reading.to };
  }
}

/**
 * Standard uncertainty of a meter that people carry, where nobody said what it is: a share of the number, and never less
 * than `least`. Invented starting values.
 */
const USUAL_METER = {
  volts: { share: 0.01, least: 0.1 },
  ohms: { share: 0.02, least: 0.1 },
};

interface Kept {
  kind: ReadingKind;
  trunk: string | null;
  node: string | null;
  core: EnteredLoopCore | null;
  value: number | null;
  uncertainty: number | null;
  reading: RequestReading | null;
}

/** A reading as the locator takes it, or why it cannot; null of a kind that says nothing about where trouble lies. */
export function asEvidence(kept: Kept): RequestReading | { reason: string } | null {
  const { kind, trunk, node, core, value } = kept;
  if (kept.reading !== null) return kept.reading;
  if (value === null) return null;
  if (kind === 'supply-volts') {
    if (trunk === null || node === null)
      return { reason: 'does not say at which station or junction box of which trunk' };
    const uncertaintyVolts = kept.uncertainty || usual(USUAL_METER.volts, value);
    return { kind, trunk, node, volts: value, uncertaintyVolts };
  }
  if (kind !== 'loop-ohms') return null;
  if (trunk === null || core === null) return { reason: 'does not say which core of which trunk' };
  if (node !== null) return { reason: 'was not taken from the head-end' };
  const uncertaintyOhms = kept.uncertainty || usual(USUAL_METER.ohms, value);
  return { kind, trunk, core, ohms: value, uncertaintyOhms };
}

function usual({ share, least }: { share: number; least: number }, value: number): number {
  return Math.max(least, share * Math.abs(value));
}
