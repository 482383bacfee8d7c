/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { DEAD_FEED } from '../sweep/feed-classes.js';
import type { SweptStations } from '../sweep/sweep-site.js';
import type { System } from '../sweep/system.js';

/**
 * Joint posterior of one station, at stateAt(group, class, feed); classes of its mode as StationClasses, and last its short
 * of the supply.
 */
export type StationStates = Float64Array;

export function stateAt(
  { stationClasses, feedClasses }: System,
  group: number,
  ofStation: number,
  feed: number,
): number {
  return (group * (stationClasses.count + 1) + ofStation) * feedClasses.count + feed;
}

/** P(head-end group, class of the station's mode, class of its feed | evidence); null at a junction box. */
export function stationStates(swept: SweptStations, t: number, n: number): StationStates | null {
  const { system } = swept.site;
  const { count: classes } = system.stationClasses;
  const { count: feedCount } = system.feedClasses;
  const model = swept.site.trunks[t]!;
  const station = model.station[n]!;
  if (!station) return null;
  const likelihood = model.likelihood[n]?.table;
  const { feeds, shorted, slots } = swept.trunks[t]!;
  const { at, contexts } = slots[n]!;
  const groups = swept.site.headEnd.count;
  const states = new Float64Array(groups * (classes + 1) * feedCount);
  for (let context = 0; context < contexts; context++) {
    const group = context % groups;
    const from = context * classes * feedCount;
    for (let k = 0; k < classes; k++)
      for (let feed = 0; feed < feedCount; feed++) {
        const seen = likelihood ? likelihood[from + k * feedCount + feed]! : 1;
        const fed = feeds[at * feedCount + feed * contexts + context]!;
        states[stateAt(system, group, k, feed)]! += station.classes[k]! * seen * fed;
      }
    const seen = likelihood ? likelihood[from + DEAD_FEED]! : 1;
    states[stateAt(system, group, classes, DEAD_FEED)]! +=
      station.short * seen * shorted[at + context]!;
  }
  return states;
}
