/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { FunctionSet } from '../../plan/functions.js';
import type { PlanTables } from '../../plan/plan-tables.js';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { conditionOf } from '../sweep/node-likelihood.js';
import type { System } from '../sweep/system.js';
import type { NodeWeights } from '../sweep/priors.js';
import { stateAt, type StationStates } from './station-states.js';

/** Chances of three conditions: good, weak, dead; of a supply: full, weak, dead. */
export type ConditionChances = readonly [number, number, number];

/** What a volume turned down silences. */
function silencedByVolume({ volumeMode, stationDisables }: PlanTables): FunctionSet {
  return volumeMode === undefined ? 0 : stationDisables[volumeMode];
}

/** Share of the volume in those faults of a station that silence what a volume turned down does. */
export function volumeShare(plan: PlanTables, weights: NodeWeights['station']): number {
  const { volumeMode, stationModes, stationDisables } = plan;
  if (volumeMode === undefined) return 0;
  const silenced = silencedByVolume(plan);
  const alike = stationModes.filter((mode) => stationDisables[mode] === silenced);
  const total = alike.reduce((sum, mode) => sum + (weights[mode] ?? 0), 0);
  return total > 0 ? (weights[volumeMode] ?? 0) / total : 0;
}

/**
 * How a function is found at a station in one state, as parts of a whole: all in one, save where a volume knob is turned
 * up first, which mends `mended` of the faults that a volume turned down is among.
 */
export function conditionParts(
  { plan, feedClasses }: System,
  func: number,
  feed: number,
  headEnd: FunctionSet,
  station: FunctionSet,
  mended: number,
): [number, number, number] {
  const parts: [number, number, number] = [0, 0, 0];
  const share = station === silencedByVolume(plan) ? mended : 0;
  parts[conditionOf(feedClasses, func, feed, headEnd)] += share;
  parts[conditionOf(feedClasses, func, feed, headEnd | station)] += 1 - share;
  return parts;
}

/** Of a function at a station; `mended` as conditionParts takes it, 0 for a plain look. */
export function functionChances(
  system: System,
  states: StationStates,
  disables: readonly FunctionSet[],
  func: number,
  mended: number,
): ConditionChances {
  const chances: [number, number, number] = [0, 0, 0];
  const { feedClasses, stationClasses } = system;
  const silenced = silencedByVolume(system.plan);
  for (let group = 0; group < disables.length; group++) {
    stationClasses.disables.forEach((station, k) => {
      for (let feed = 0; feed < feedClasses.count; feed++) {
        const mass = states[stateAt(system, group, k, feed)]!;
        if (mass === 0) continue;
        const share = station === silenced ? mended : 0;
        chances[conditionOf(feedClasses, func, feed, disables[group]! | station)] +=
          mass * (1 - share);
        if (share > 0)
          chances[conditionOf(feedClasses, func, feed, disables[group]!)] += mass * share;
      }
    });
    chances[2] += states[stateAt(system, group, stationClasses.count, DEAD_FEED)]!;
  }
  return chances;
}

/** Of the supply at a station: full, weak, dead. */
export function supplyChances({ feedClasses }: System, states: StationStates): ConditionChances {
  const chances: [number, number, number] = [0, 0, 0];
  states.forEach((mass, i) => {
    const feed = i % feedClasses.count;
    chances[feed === DEAD_FEED ? 2 : feedClasses.weak[feed]!]! += mass;
  });
  return chances;
}
