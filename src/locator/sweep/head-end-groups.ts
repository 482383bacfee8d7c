import type { FunctionSet } from '../../plan/functions.js';
import type { HeadEndMode, HeadEndModeName } from '../../plan/modes.js';
import { headEndEffect, type PlanTables } from '../../plan/plan-tables.js';
import type { HeadEndExpectation } from '../../plan/expected-faults.js';
import { type Looks, seenChances } from './looks.js';
import type { Zones } from './zones.js';
import { zeroTable } from '../numbers/zero-table.js';

/** The head-end's modes, `ok` first, with what was seen there in their chances. */
export interface HeadEndModes {
  readonly names: readonly HeadEndModeName[];
  /** Of `ok` and then of each mode. */
  readonly chances: Float64Array;
  /** By zone, of `ok` and then of each mode: what it disables there. */
  readonly disables: readonly (readonly FunctionSet[])[];
  /** Of `ok` and then of each mode: 1 if it takes the supply from every trunk. */
  readonly isPowerless: Uint8Array;
}

/** @param table faults per year; or the faults to be expected, with `years` 1 */
export function headEndModes(
  plan: PlanTables,
  table: HeadEndExpectation,
  years: number,
  { groups, groupsOf }: Zones,
  looks: Looks,
): HeadEndModes {
  const names = [
    ...plan.siteModes.filter((mode) => table[mode] !== undefined),
    ...plan.groupModes.flatMap((kind) =>
      groups
        .map((group) => `${kind}:${group}` as const)
        .filter((name) => (table[name] ?? table[kind]) !== undefined),
    ),
  ];
  const rates = names.map((name) => table[name] ?? table[kindOf(plan, name)] ?? 0);
  const { ok, modes } = seenChances(
    rates,
    years,
    looks.seen({ kind: 'head-end' }, 'head-end', names),
  );
  const effects = names.map((name) => headEndEffect(plan, name));
  return {
    names,
    chances: Float64Array.of(ok, ...modes),
    disables: groupsOf.map((own) => [
      0,
      ...effects.map(({ disables, group }) => (group === null || own.has(group) ? disables : 0)),
    ]),
    isPowerless: Uint8Array.from(['ok', ...names], (name) =>
      plan.plan.headEnd[name]?.takesSupply ? 1 : 0,
    ),
  };
}

function kindOf({ groupModes }: PlanTables, name: HeadEndModeName): HeadEndMode {
  return groupModes.find((kind) => name.startsWith(`${kind}:`)) ?? (name as HeadEndMode);
}

/**
 * The head-end's modes, grouped: modes that disable the same functions wherever these have evidence, and leave the supply
 * as it is, make the evidence equally likely, so one sweep serves them all and the posterior inside a group is the prior's.
 */
export interface HeadEndGroups {
  readonly count: number;
  /** How many functions the plan has. */
  readonly functions: number;
  /** Prior of each group, with what was seen. */
  readonly chance: Float64Array;
  /** By zone: the functions with evidence there that each group disables. */
  readonly disables: readonly (readonly FunctionSet[])[];
  /** 1 where the group takes the supply from every trunk. */
  readonly isPowerless: Uint8Array;
  /** Names of the modes; `ok` is not among them. */
  readonly modes: readonly HeadEndModeName[];
  /** The group of `ok` and then of each mode. */
  readonly ofMode: Uint8Array;
  /** P(mode | its group), in the same order. */
  readonly share: Float64Array;
  /**
   * Share of a group's chance in modes that leave the function working, at (zone * count + group) * functions + function;
   * and that do not.
   */
  readonly enabled: Float64Array;
  readonly disabled: Float64Array;
}

/** @param withEvidence by zone, the functions that something is known of */
export function headEndGroups(
  functions: number,
  modes: HeadEndModes,
  withEvidence: readonly FunctionSet[],
): HeadEndGroups {
  const { chances, disables, isPowerless, names } = modes;
  const keys = Array.from(chances, (_, m) =>
    [
      isPowerless[m],
      ...disables.map((own, zone) => (own[m] ?? 0) & (withEvidence[zone] ?? 0)),
    ].join(),
  );
  const distinct = [...new Set(keys)];
  const first = distinct.map((key) => keys.indexOf(key));
  const ofMode = Uint8Array.from(keys, (key) => distinct.indexOf(key));
  const chance = zeroTable(distinct.length);
  ofMode.forEach((group, mode) => (chance[group] = (chance[group] ?? 0) + (chances[mode] ?? 0)));
  const share = Float64Array.from(ofMode, (group, mode) => {
    const whole = chance[group] ?? 0;
    return whole > 0 ? (chances[mode] ?? 0) / whole : 0;
  });
  return {
    count: distinct.length,
    chance,
    disables: disables.map((own, zone) =>
      first.map((m) => (own[m] ?? 0) & (withEvidence[zone] ?? 0)),
    ),
    isPowerless: Uint8Array.from(first, (m) => isPowerless[m] ?? 0),
    modes: names,
    ofMode,
    share,
    functions,
    ...sharesByFunction(functions, disables, ofMode, share, distinct.length),
  };
}

function sharesByFunction(
  functions: number,
  disables: readonly (readonly FunctionSet[])[],
  ofMode: Uint8Array,
  share: Float64Array,
  groups: number,
): Pick<HeadEndGroups, 'enabled' | 'disabled'> {
  const size = disables.length * groups * functions;
  const enabled = zeroTable(size);
  const disabled = zeroTable(size);
  disables.forEach((own, zone) =>
    ofMode.forEach((group, mode) => {
      for (let f = 0; f < functions; f++) {
        const table = (own[mode] ?? 0) & (1 << f) ? disabled : enabled;
        const at = (zone * groups + group) * functions + f;
        table[at] = (table[at] ?? 0) + (share[mode] ?? 0);
      }
    }),
  );
  return { enabled, disabled };
}

/** The group of a mode; null where it does not occur. */
export function groupOf({ modes, ofMode }: HeadEndGroups, mode: HeadEndModeName): number | null {
  const at = modes.indexOf(mode);
  return at < 0 ? null : (ofMode[at + 1] ?? null);
}

/** Without some groups; their modes have no share in those that are kept. */
export function onlyGroups(all: HeadEndGroups, isKept: (group: number) => boolean): HeadEndGroups {
  const kept = [...all.chance.keys()].filter(isKept);
  if (kept.length === all.count) return all;
  const byFunction = (table: Float64Array) =>
    Float64Array.from(
      all.disables.flatMap((_, zone) =>
        kept.flatMap((group) => {
          const at = (zone * all.count + group) * all.functions;
          return [...table.subarray(at, at + all.functions)];
        }),
      ),
    );
  return {
    ...all,
    count: kept.length,
    chance: Float64Array.from(kept, (group) => all.chance[group] ?? 0),
    disables: all.disables.map((own) => kept.map((group) => own[group] ?? 0)),
    isPowerless: Uint8Array.from(kept, (group) => all.isPowerless[group] ?? 0),
    ofMode: all.ofMode.map((group) => Math.max(0, kept.indexOf(group))),
    share: all.share.map((share, mode) => (kept.includes(all.ofMode[mode] ?? -1) ? share : 0)),
    enabled: byFunction(all.enabled),
    disabled: byFunction(all.disabled),
  };
}

/** The groups whose modes another one, made of the same modes and evidence, has kept. */
export function groupsAsIn(all: HeadEndGroups, kept: HeadEndGroups): HeadEndGroups {
  if (kept.count === all.count) return all;
  const groups = new Set(
    [...all.ofMode.keys()].filter((m) => (kept.share[m] ?? 0) > 0).map((m) => all.ofMode[m]),
  );
  return onlyGroups(all, (group) => groups.has(group));
}
