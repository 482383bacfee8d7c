import type { InformantKind } from './error-rates.js';

/** How a part that somebody looked at was found. */
export const SEEN = ['sound', 'faulty'] as const;

/** What one can look at in a span. */
export const SPAN_PARTS = ['junction-out', 'cable', 'junction-in'] as const;

/** Starting values (fault model, section 4): invented, to be replaced by a firm's own record. */
export const DEFAULT_LOOK_ERRORS: Readonly<
  Record<InformantKind, { readonly missed: number; readonly false: number }>
> = {
  office: { missed: 0.1, false: 0.01 },
  technician: { missed: 0.05, false: 0.002 },
};

/** What is missed more often: most of a cable is out of sight, a bad joint often looks like a good one. */
const CABLE_MISSED = 0.5;
const RESISTIVE_MISSED_BY_TECHNICIAN = 0.3;
const UNIT_MISSED_BY_OFFICE = 0.5;

/** Of what comes and goes, a look misses half at least. */
export const PASSING_MISSED = 0.5;

/** Modes of a station that a look at its unit does not show. */
const NOT_OF_THE_UNIT: readonly string[] = [
  'volume-down',
  'bell-setting',
  'announcement-setting',
  'music-setting',
];

const WHOLE_PARTS: readonly string[] = SPAN_PARTS;

function isCovered(part: string, mode: string): boolean {
  if (mode === 'ok') return false;
  if (WHOLE_PARTS.includes(part)) return true;
  if (part === 'unit') return !NOT_OF_THE_UNIT.includes(mode);
  return part === mode;
}

/** Chance that who looks at a part misses this mode there; null if the part shows nothing of the mode. */
export function missedChance(kind: InformantKind, part: string, mode: string): number | null {
  if (!isCovered(part, mode)) return null;
  let missed = DEFAULT_LOOK_ERRORS[kind].missed;
  if (part === 'cable') missed = Math.max(missed, CABLE_MISSED);
  if (mode === 'resistive' && kind === 'technician')
    missed = Math.max(missed, RESISTIVE_MISSED_BY_TECHNICIAN);
  if (part === 'unit' && kind === 'office') missed = Math.max(missed, UNIT_MISSED_BY_OFFICE);
  return missed;
}
