/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import type { FunctionSet } from '../../plan/functions.js';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { logAdd } from '../numbers/log-add.js';
import { nodeLikelihood } from '../sweep/node-likelihood.js';
import { joinTrunks } from '../sweep/site.js';
import { possibleClasses } from '../sweep/trunk-model.js';
import { type Felt, silencing, sittingsTouched } from './passing-sweeps.js';
import { presences } from './presences.js';
import type { SweptSittings } from './sitting-sweeps.js';

// What the evidence gains, as a logarithm, if a part of the head-end, a port or a station is faulty in some sittings.

/** By trunk, its evidence with something there in a set of sittings: worked out once for those that change anything on it. */
function evidenceByPresence(
  { sweeps, passing }: SweptSittings,
  felt: readonly Felt[],
  touched: readonly (readonly number[])[],
): (there: ReadonlySet<number>) => Float64Array[] {
  const known = sweeps.map(() => new Map<string, Float64Array>());
  return (there) =>
    sweeps.map((_, t) => {
      const own = touched[t]!.filter((sitting) => there.has(sitting));
      const key = own.join();
      const evidence = known[t]!.get(key) ?? passing[t]!.logEvidence(felt[t]!, new Set(own));
      known[t]!.set(key, evidence);
      return evidence;
    });
}

/** By head-end group: its modes disable the same wherever something was told. */
export function headEndGains(swept: SweptSittings): Float64Array {
  const { site, joined } = swept;
  return Float64Array.from({ length: site.headEnd.count }, (_, group) => {
    const felt = site.trunks.map((trunk) =>
      silencing(trunk, (zone) => site.headEnd.disables[zone]![group]!),
    );
    const touched = site.trunks.map((trunk, t) => sittingsTouched(trunk, felt[t]!));
    const evidenceWith = evidenceByPresence(swept, felt, touched);
    let gain = -Infinity;
    for (const { sittings, chance } of presences([...new Set(touched.flat())])) {
      const { logEvidence } = joinTrunks(site, evidenceWith(sittings));
      gain = logAdd(gain, ln(chance) + logEvidence - joined.logEvidence);
    }
    return gain;
  });
}

/** All other trunks stay as they were swept. */
export function portGain({ site, joined, passing }: SweptSittings, t: number): number {
  const felt = silencing(site.trunks[t]!, () => site.system.plan.allFunctions);
  const ofRest = joined.logWeights[t]!;
  let gain = -Infinity;
  for (const { sittings, chance } of presences(sittingsTouched(site.trunks[t]!, felt)))
    passing[t]!.logEvidence(felt, sittings).forEach((own, context) => {
      gain = logAdd(gain, ln(chance) + own + ofRest[context]!);
    });
  return gain;
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
  const told = model.statements[n]!.flatMap(({ items }) => items);
  const touched = told.filter(({ func }) => disabled & (1 << func));
  if (!known || touched.length === 0) return 0;
  const sittings = [...new Set(touched.map(({ sitting }) => sitting))];
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
        const scale = exp((logs?.[cell] ?? 0) - (known.logs?.[cell] ?? 0));
        let ofClasses = 0;
        for (let k = 0; k < classCount; k++)
          ofClasses += classes[k]! * table[row + k * space.feeds]!;
        let mass = feeds[at * space.feeds + cell]! * ofClasses;
        if (feed === DEAD_FEED) mass += short * shorted[at + c]! * table[row]!;
        gain += chance * scale * mass;
      }
  }
  return ln(gain);
}
