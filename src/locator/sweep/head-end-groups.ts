import { FUNCTIONS, type FunctionSet } from '../../plan/functions.js';
import { modeChances } from '../../plan/mode-chances.js';
import { HEAD_END_DISABLES, SITE_MODES } from '../../plan/modes.js';
import type { RateTables } from '../../plan/rates.js';

/**
 * The head-end's modes, grouped: modes that disable the same functions among those with evidence make the evidence
 * equally likely, so one sweep serves them all and the posterior inside a group is the prior's.
 */
export interface HeadEndGroups {
  readonly count: number;
  /** Prior of each group. */
  readonly chance: Float64Array;
  /** Functions with evidence that each group disables. */
  readonly disables: readonly FunctionSet[];
  /** The group of `ok` and then of each mode of SITE_MODES. */
  readonly ofMode: Uint8Array;
  /** P(mode | its group), in the same order. */
  readonly share: Float64Array;
  /** Share of a group's chance in modes that leave the function working, at group * 6 + function; and that do not. */
  readonly enabled: Float64Array;
  readonly disabled: Float64Array;
}

const DISABLES: readonly FunctionSet[] = [0, ...SITE_MODES.map((mode) => HEAD_END_DISABLES[mode])];

export function headEndGroups(
  rates: RateTables['headEnd'],
  years: number,
  withEvidence: FunctionSet,
): HeadEndGroups {
  const prior = modeChances(
    SITE_MODES.map((mode) => rates[mode] ?? 0),
    years,
  );
  const chances = [prior.ok, ...prior.modes];
  const disables = [...new Set(DISABLES.map((set) => set & withEvidence))];
  const ofMode = Uint8Array.from(DISABLES, (set) => disables.indexOf(set & withEvidence));
  const chance = new Float64Array(disables.length);
  ofMode.forEach((group, mode) => (chance[group] = (chance[group] ?? 0) + (chances[mode] ?? 0)));
  const share = Float64Array.from(ofMode, (group, mode) => {
    const whole = chance[group] ?? 0;
    return whole > 0 ? (chances[mode] ?? 0) / whole : 0;
  });
  const enabled = new Float64Array(disables.length * FUNCTIONS.length);
  const disabled = new Float64Array(disables.length * FUNCTIONS.length);
  ofMode.forEach((group, mode) =>
    FUNCTIONS.forEach((_, f) => {
      const table = (DISABLES[mode] ?? 0) & (1 << f) ? disabled : enabled;
      const at = group * FUNCTIONS.length + f;
      table[at] = (table[at] ?? 0) + (share[mode] ?? 0);
    }),
  );
  return { count: disables.length, chance, disables, ofMode, share, enabled, disabled };
}

/** Without some groups; their modes have no share in those that are kept. */
export function onlyGroups(all: HeadEndGroups, isKept: (group: number) => boolean): HeadEndGroups {
  const kept = [...all.disables.keys()].filter(isKept);
  if (kept.length === all.count) return all;
  const byFunction = (table: Float64Array) =>
    Float64Array.from(
      kept.flatMap((group) => [
        ...table.subarray(group * FUNCTIONS.length, (group + 1) * FUNCTIONS.length),
      ]),
    );
  return {
    count: kept.length,
    chance: Float64Array.from(kept, (group) => all.chance[group] ?? 0),
    disables: kept.map((group) => all.disables[group] ?? 0),
    ofMode: all.ofMode.map((group) => Math.max(0, kept.indexOf(group))),
    share: all.share.map((share, mode) => (kept.includes(all.ofMode[mode] ?? -1) ? share : 0)),
    enabled: byFunction(all.enabled),
    disabled: byFunction(all.disabled),
  };
}
