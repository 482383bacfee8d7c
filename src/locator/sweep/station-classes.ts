import type { FunctionSet } from '../../plan/functions.js';
import type { PlanTables } from '../../plan/plan-tables.js';
import type { RateTables } from '../../plan/rates.js';
import { type Seen, seenChances } from './looks.js';
import type { System } from './system.js';
import { zeroTable } from '../numbers/zero-table.js';

/** How the modes of a station act on evidence, of one plan. */
export class StationClasses {
  /** Sets of functions that some mode disables: modes with one set act alike. 0 is `ok`. */
  readonly disables: readonly FunctionSet[];
  readonly count: number;
  /** The class of each mode; -1 for the short, which is kept apart: it changes the view. */
  readonly ofMode: Int8Array;
  /** The place of the short among the modes; -1 where the plan has none. */
  readonly short: number;

  constructor({ stationModes, stationDisables, stationShort }: PlanTables) {
    this.disables = [...new Set([0, ...stationModes.map((mode) => stationDisables[mode])])];
    this.count = this.disables.length;
    this.short = stationShort === undefined ? -1 : stationModes.indexOf(stationShort);
    this.ofMode = Int8Array.from(stationModes, (mode, m) =>
      m === this.short ? -1 : this.disables.indexOf(stationDisables[mode]),
    );
  }
}

/** The prior of one station by class, and of its short. */
export interface StationChances {
  readonly classes: Float64Array;
  readonly short: number;
  /** By function, the share of the classes that leave it working, and of those that do not; the short apart. */
  readonly enabled: Float64Array;
  readonly disabled: Float64Array;
}

export function stationChances(
  { plan, stationClasses }: System,
  rates: RateTables['station'],
  years: number,
  seen: Seen | null = null,
): StationChances {
  const { ok, modes } = seenChances(
    plan.stationModes.map((mode) => rates[mode] ?? 0),
    years,
    seen,
  );
  const classes = zeroTable(stationClasses.count);
  classes[0] = ok;
  modes.forEach((chance, m) => {
    const of = stationClasses.ofMode[m] ?? -1;
    if (of >= 0) classes[of] = (classes[of] ?? 0) + chance;
  });
  return ofClasses(
    stationClasses,
    plan.functions.length,
    classes,
    modes[stationClasses.short] ?? 0,
  );
}

export function ofClasses(
  { disables }: StationClasses,
  functions: number,
  classes: Float64Array,
  short: number,
): StationChances {
  const enabled = zeroTable(functions);
  const disabled = zeroTable(functions);
  classes.forEach((chance, k) => {
    for (let f = 0; f < functions; f++) {
      const table = (disables[k] ?? 0) & (1 << f) ? disabled : enabled;
      table[f] = (table[f] ?? 0) + chance;
    }
  });
  return { classes, short, enabled, disabled };
}
