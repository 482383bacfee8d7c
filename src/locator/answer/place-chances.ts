/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { HEAD_END_MODES, PORT_MODES, SPAN_MODES, STATION_MODES } from '../model/modes.js';
import { MASSES_PER_COMPONENT, MASSES_PER_SPAN } from '../sweep/descend-span.js';
import type { SiteMasses, SiteModel } from '../sweep/site.js';
import { CLASS_OF_STATION_MODE, STATION_CLASS_COUNT } from '../sweep/station-classes.js';
import { EFFECTS } from '../sweep/states.js';
import type { TrunkMasses } from '../sweep/sweep-trunk.js';
import type { StationPosterior } from './conditions.js';
import type { ComponentChances, ComponentName, PlaceChance } from './locate-result.js';
import { modeSplit, type ModeSplit, splitModes } from './mode-split.js';
import { comparePlaces, sortLargestFirst } from './order.js';

const SHORT_CLASS = STATION_CLASS_COUNT;
const STATION_CLASS_OR_SHORT = Array.from(CLASS_OF_STATION_MODE, (of) =>
  of < 0 ? SHORT_CLASS : of,
);

interface Splits {
  junction: ModeSplit;
  cable: ModeSplit;
  station: ModeSplit;
}

function spanComponent(
  component: ComponentName,
  split: ModeSplit,
  masses: Float64Array,
  at: number,
): ComponentChances {
  const own = masses.subarray(at, at + MASSES_PER_COMPONENT);
  return { component, modes: splitModes(split, own[EFFECTS.count]!, own) };
}

function trunkPlaces(
  site: SiteModel,
  t: number,
  masses: TrunkMasses,
  stations: readonly (StationPosterior | null)[],
  splits: Splits,
): PlaceChance[] {
  const { tree } = site.trunks[t]!;
  const trunk = tree.id;
  const places: PlaceChance[] = [portPlace(site, trunk, masses)];
  for (let n = 0; n < tree.count; n++) {
    const at = n * MASSES_PER_SPAN;
    const next = MASSES_PER_COMPONENT;
    const from = tree.nodeIds[tree.parent[n]!] ?? null;
    places.push({
      place: { kind: 'span', trunk, from, to: tree.nodeIds[n]! },
      probability: masses.spans[at + 3 * next]!,
      components: [
        spanComponent('junction-out', splits.junction, masses.spans, at),
        spanComponent('cable', splits.cable, masses.spans, at + next),
        spanComponent('junction-in', splits.junction, masses.spans, at + 2 * next),
      ],
    });
    const station = stations[n];
    if (!station) continue;
    const chances = [...station.classes, station.short];
    places.push({
      place: { kind: 'station', trunk, node: tree.nodeIds[n]! },
      probability: chances.reduce((sum, chance, k) => (k === 0 ? sum : sum + chance), 0),
      components: [
        { component: 'station', modes: splitModes(splits.station, chances[0]!, chances) },
      ],
    });
  }
  return places;
}

function portPlace(site: SiteModel, trunk: string, masses: TrunkMasses): PlaceChance {
  const split = modeSplit(site.rates.port, PORT_MODES, [0]);
  return {
    place: { kind: 'port', trunk },
    probability: masses.portNoOutput,
    components: [
      { component: 'port', modes: splitModes(split, masses.portOk, [masses.portNoOutput]) },
    ],
  };
}

function headEndPlace(site: SiteModel, groups: Float64Array): PlaceChance {
  const { ofMode, share } = site.headEnd;
  const chances = Array.from(ofMode, (group, mode) => groups[group]! * share[mode]!);
  const modes: Record<string, number> = { ok: chances[0]! };
  HEAD_END_MODES.forEach((mode, m) => {
    if (site.rates.headEnd[mode] !== undefined) modes[mode] = chances[m + 1]!;
  });
  return {
    place: { kind: 'head-end' },
    probability: chances.reduce((sum, chance, mode) => (mode === 0 ? sum : sum + chance), 0),
    components: [{ component: 'head-end', modes }],
  };
}

/** Every place with the chance that something there is faulty, and its components' modes; most probable first. */
export function placeChances(
  site: SiteModel,
  masses: SiteMasses,
  trunks: readonly TrunkMasses[],
  stations: readonly (readonly (StationPosterior | null)[])[],
): PlaceChance[] {
  const splits: Splits = {
    junction: modeSplit(site.rates.junction, SPAN_MODES, EFFECTS.ofMode),
    cable: modeSplit(site.rates.cablePerMetre, SPAN_MODES, EFFECTS.ofMode),
    station: modeSplit(site.rates.station, STATION_MODES, STATION_CLASS_OR_SHORT),
  };
  const places = [
    headEndPlace(site, masses.groups),
    ...trunks.flatMap((trunk, t) => trunkPlaces(site, t, trunk, stations[t]!, splits)),
  ];
  return sortLargestFirst(
    places,
    (place) => place.probability,
    (a, b) => comparePlaces(a.place, b.place),
  );
}
