/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { DEAD_FEED, FEED_CLASSES } from '../sweep/feed-classes.js';
import { STATION_CLASS_COUNT } from '../sweep/station-classes.js';
import type { SweptStations } from '../sweep/sweep-site.js';

/** Classes of a station's mode as STATION_CLASSES, and last its short of the supply. */
export const SHORT_CLASS = STATION_CLASS_COUNT;
const CLASSES = STATION_CLASS_COUNT + 1;

/** Joint posterior of one station, at stateAt(group, class, feed). */
export type StationStates = Float64Array;

export function stateAt(group: number, ofStation: number, feed: number): number {
  return (group * CLASSES + ofStation) * FEED_CLASSES + feed;
}

/** P(head-end group, class of the station's mode, class of its feed | evidence); null at a junction box. */
export function stationStates(swept: SweptStations, t: number, n: number): StationStates | null {
  const model = swept.site.trunks[t]!;
  const station = model.station[n]!;
  if (!station) return null;
  const likelihood = model.likelihood[n]?.table;
  const { feeds, shorted, slots } = swept.trunks[t]!;
  const { at, contexts } = slots[n]!;
  const groups = swept.site.headEnd.count;
  const states = new Float64Array(groups * CLASSES * FEED_CLASSES);
  for (let context = 0; context < contexts; context++) {
    const group = context % groups;
    const from = context * STATION_CLASS_COUNT * FEED_CLASSES;
    for (let k = 0; k < STATION_CLASS_COUNT; k++)
      for (let feed = 0; feed < FEED_CLASSES; feed++) {
        const seen = likelihood ? likelihood[from + k * FEED_CLASSES + feed]! : 1;
        const fed = feeds[at * FEED_CLASSES + feed * contexts + context]!;
        states[stateAt(group, k, feed)]! += station.classes[k]! * seen * fed;
      }
    const seen = likelihood ? likelihood[from + DEAD_FEED]! : 1;
    states[stateAt(group, SHORT_CLASS, DEAD_FEED)]! +=
      station.short * seen * shorted[at + context]!;
  }
  return states;
}
