/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { FunctionSet } from '../../plan/functions.js';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { logAdd } from '../numbers/log-add.js';
import { nodeLikelihood } from '../sweep/node-likelihood.js';
import { joinTrunks } from '../sweep/site.js';
import { sweepUp } from '../sweep/sweep-trunk.js';
import { possibleClasses, trunkLikelihood, type TrunkModel } from '../sweep/trunk-model.js';
import { presences } from './presences.js';
import type { SweptSittings } from './sitting-sweeps.js';

// What the evidence gains, as a logarithm, if a part of the head-end, a port or a station is faulty in some sittings.

/** Sittings in which something was told that `silences` changes. */
function touched(
  trunks: readonly TrunkModel[],
  silences: (trunk: number, node: number) => FunctionSet,
): number[] {
  const found = new Set<number>();
  trunks.forEach(({ statements }, t) =>
    statements.forEach((heard, n) => {
      for (const { items } of heard)
        for (const { func, sitting } of items) if (silences(t, n) & (1 << func)) found.add(sitting);
    }),
  );
  return [...found].sort((a, b) => a - b);
}

/** `disables` by trunk and zone; trunks of which it says nothing stay as they are. */
function gainOf(
  { site, sweeps, joined }: SweptSittings,
  disables: readonly ((zone: number) => FunctionSet)[],
): number {
  const sittings = touched(site.trunks, (t, n) => disables[t]!(site.trunks[t]!.zone[n]!));
  let gain = -Infinity;
  for (const { sittings: there, chance } of presences(sittings)) {
    const evidence = site.trunks.map((trunk, t) => {
      if (there.size === 0) return sweeps[t]!.port.logEvidence;
      const silenced = (zone: number) => (sitting: number) =>
        there.has(sitting) ? disables[t]!(zone) : 0;
      const likelihood = trunkLikelihood(trunk, site.headEnd, { silenced });
      return sweepUp({ ...trunk, likelihood }).port.logEvidence;
    });
    const { logEvidence } = joinTrunks(site, evidence);
    gain = logAdd(gain, Math.log(chance) + logEvidence - joined.logEvidence);
  }
  return gain;
}

/** By head-end group: its modes disable the same wherever something was told. */
export function headEndGains(swept: SweptSittings): Float64Array {
  const { disables, count } = swept.site.headEnd;
  return Float64Array.from({ length: count }, (_, group) =>
    gainOf(
      swept,
      swept.site.trunks.map(() => (zone) => disables[zone]![group]!),
    ),
  );
}

export function portGain(swept: SweptSittings, trunk: number): number {
  return gainOf(
    swept,
    swept.site.trunks.map((_, t) => () => (t === trunk ? swept.site.system.plan.allFunctions : 0)),
  );
}

/**
 * Of a mode of a station that disables some functions: what arrives there, given all else, is known from the sweeps, so
 * that only what was told of the station itself is weighed again.
 */
export function stationGain(
  { site, sweeps, trunks }: SweptSittings,
  t: number,
  n: number,
  disabled: FunctionSet,
): number {
  const model = site.trunks[t]!;
  const known = model.likelihood[n];
  const sittings = touched([model], (_, node) => (node === n ? disabled : 0));
  if (!known || sittings.length === 0) return 0;
  const { station, space, zone, plan, statements } = model;
  const { classes, short } = station[n]!;
  const { count: classCount } = site.system.stationClasses;
  const { at, contexts } = sweeps[t]!.tables.nodes[n]!;
  const { feeds, shorted } = trunks[t]!;
  let gain = 0;
  for (const { sittings: there, chance } of presences(sittings)) {
    const { table, logs } = nodeLikelihood(
      statements[n]!,
      site.headEnd.disables[zone[n]!]!,
      plan.nodeFlags[n]!,
      { system: site.system, classes: space.classes },
      {
        silenced: (sitting) => (there.has(sitting) ? disabled : 0),
        possible: possibleClasses(station[n]),
      },
    );
    for (let c = 0; c < contexts; c++)
      for (let feed = 0; feed < space.feeds; feed++) {
        const cell = feed * contexts + c;
        const row = c * classCount * space.feeds + feed;
        const scale = Math.exp((logs?.[cell] ?? 0) - (known.logs?.[cell] ?? 0));
        let told = 0;
        for (let k = 0; k < classCount; k++) told += classes[k]! * table[row + k * space.feeds]!;
        let mass = feeds[at * space.feeds + cell]! * told;
        if (feed === DEAD_FEED) mass += short * shorted[at + c]! * table[row]!;
        gain += chance * scale * mass;
      }
  }
  return Math.log(gain);
}
