/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { FunctionSet } from '../../plan/functions.js';
import { STATION_DISABLES, STATION_MODES } from '../../plan/modes.js';
import { DEAD_FEED, FEED_CLASSES, WEAK } from '../sweep/feed-classes.js';
import { conditionOf } from '../sweep/node-likelihood.js';
import { STATION_CLASSES } from '../sweep/station-classes.js';
import type { NodeWeights } from '../sweep/trunk-model.js';
import { SHORT_CLASS, stateAt, type StationStates } from './station-states.js';

/** Chances of three conditions: good, weak, dead; of a supply: full, weak, dead. */
export type ConditionChances = readonly [number, number, number];

const VOLUME_DOWN: FunctionSet = STATION_DISABLES['volume-down'];

/** Share of the volume in those faults of a station that silence what a volume turned down does. */
export function volumeShare(weights: NodeWeights['station']): number {
  const alike = STATION_MODES.filter((mode) => STATION_DISABLES[mode] === VOLUME_DOWN);
  const total = alike.reduce((sum, mode) => sum + (weights[mode] ?? 0), 0);
  return total > 0 ? (weights['volume-down'] ?? 0) / total : 0;
}

/**
 * How a function is found at a station in one state, as parts of a whole: all in one, save where a volume knob is turned
 * up first, which mends `mended` of the faults that a volume turned down is among.
 */
export function conditionParts(
  func: number,
  feed: number,
  headEnd: FunctionSet,
  station: FunctionSet,
  mended: number,
): [number, number, number] {
  const parts: [number, number, number] = [0, 0, 0];
  const share = station === VOLUME_DOWN ? mended : 0;
  parts[conditionOf(func, feed, headEnd)] += share;
  parts[conditionOf(func, feed, headEnd | station)] += 1 - share;
  return parts;
}

/** Of a function at a station; `mended` as conditionParts takes it, 0 for a plain look. */
export function functionChances(
  states: StationStates,
  disables: readonly FunctionSet[],
  func: number,
  mended: number,
): ConditionChances {
  const chances: [number, number, number] = [0, 0, 0];
  for (let group = 0; group < disables.length; group++) {
    STATION_CLASSES.forEach((station, k) => {
      for (let feed = 0; feed < FEED_CLASSES; feed++) {
        const mass = states[stateAt(group, k, feed)]!;
        if (mass === 0) continue;
        const share = station === VOLUME_DOWN ? mended : 0;
        chances[conditionOf(func, feed, disables[group]! | station)] += mass * (1 - share);
        if (share > 0) chances[conditionOf(func, feed, disables[group]!)] += mass * share;
      }
    });
    chances[2] += states[stateAt(group, SHORT_CLASS, DEAD_FEED)]!;
  }
  return chances;
}

/** Of the supply at a station: full, weak, dead. */
export function supplyChances(states: StationStates): ConditionChances {
  const chances: [number, number, number] = [0, 0, 0];
  states.forEach((mass, i) => {
    const feed = i % FEED_CLASSES;
    chances[feed === DEAD_FEED ? 2 : WEAK[feed]!]! += mass;
  });
  return chances;
}
