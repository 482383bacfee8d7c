import { FUNCTIONS, type FunctionSet } from '../../plan/functions.js';
import { STATION_DISABLES, STATION_MODES } from '../../plan/modes.js';
import type { RateTables } from '../../plan/rates.js';
import { type Seen, seenChances } from './looks.js';

/** Sets of functions that some mode of a station disables: modes with one set act alike on evidence. 0 is `ok`. */
export const STATION_CLASSES: readonly FunctionSet[] = [
  ...new Set([0, ...STATION_MODES.map((mode) => STATION_DISABLES[mode])]),
];

export const STATION_CLASS_COUNT = STATION_CLASSES.length;

const SHORT_MODE = STATION_MODES.indexOf('short-supply');

/** The class of each mode, in the order of STATION_MODES; -1 for the short, which is kept apart: it changes the view. */
export const CLASS_OF_STATION_MODE = Int8Array.from(STATION_MODES, (mode, m) =>
  m === SHORT_MODE ? -1 : STATION_CLASSES.indexOf(STATION_DISABLES[mode]),
);

/** The prior of one station by class, and of its short. */
export interface StationChances {
  readonly classes: Float64Array;
  readonly short: number;
  /** By function, the share of the classes that leave it working, and of those that do not; the short apart. */
  readonly enabled: Float64Array;
  readonly disabled: Float64Array;
}

export function stationChances(
  rates: RateTables['station'],
  years: number,
  seen: Seen | null = null,
): StationChances {
  const { ok, modes } = seenChances(
    STATION_MODES.map((mode) => rates[mode] ?? 0),
    years,
    seen,
  );
  const classes = new Float64Array(STATION_CLASS_COUNT);
  classes[0] = ok;
  modes.forEach((chance, m) => {
    const of = CLASS_OF_STATION_MODE[m] ?? -1;
    if (of >= 0) classes[of] = (classes[of] ?? 0) + chance;
  });
  return ofClasses(classes, modes[SHORT_MODE] ?? 0);
}

export function ofClasses(classes: Float64Array, short: number): StationChances {
  const enabled = new Float64Array(FUNCTIONS.length);
  const disabled = new Float64Array(FUNCTIONS.length);
  classes.forEach((chance, k) => {
    for (let f = 0; f < FUNCTIONS.length; f++) {
      const table = (STATION_CLASSES[k] ?? 0) & (1 << f) ? disabled : enabled;
      table[f] = (table[f] ?? 0) + chance;
    }
  });
  return { classes, short, enabled, disabled };
}
