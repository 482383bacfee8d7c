/** The units of each kind of reading, the usual one first; of `other`, whatever the meter says. */
export const READING_UNITS = {
  'supply-volts': ['V'],
  'loop-ohms': ['ohm'],
  'insulation-megohms': ['Mohm'],
  'sound-level-db': ['dB', 'dB(A)', 'dB(C)'],
  other: null,
} as const satisfies Record<string, readonly [string, ...string[]] | null>;

export type ReadingKind = keyof typeof READING_UNITS;

export const READING_KINDS = Object.keys(READING_UNITS) as ReadingKind[];

/** The unit that is meant, or why there is none: left out, it is the usual one of the kind. */
export function readUnit(
  kind: ReadingKind,
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
