/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { massesPerComponent, massesPerSpan } from '../sweep/descend-span.js';
import type { SiteModel } from '../sweep/site.js';
import type { System } from '../sweep/system.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { StationPosterior } from './conditions.js';
import type { Accounts, TrunkAccounts } from '../causes/troubles.js';
import type { ComponentChances, ComponentName, PlaceChance } from './locate-result.js';
import { modeSplit, type ModeSplit, splitModes } from './mode-split.js';
import { zeroTable } from '../numbers/zero-table.js';
import { comparePlaces, sortLargestFirst } from './order.js';
import type { Posterior, TrunkPosterior } from './posterior.js';

/** By mode of a station its class, as the chances of a station go: the short behind them. */
function stationClassesOf({ stationClasses: { ofMode, count } }: System): number[] {
  return Array.from(ofMode, (of) => (of < 0 ? count : of));
}

/** Splits by the table that they are by: most components share one. */
class Splits {
  private readonly known = new Map<object, ModeSplit>();
  private readonly stationClass: readonly number[];
  constructor(
    private readonly system: System,
    private readonly effects: EffectClasses,
  ) {
    this.stationClass = stationClassesOf(system);
  }

  private of<Mode extends string>(
    weights: Readonly<Partial<Record<Mode, number>>>,
    modes: readonly Mode[],
    classOf: ArrayLike<number>,
  ): ModeSplit {
    const split = this.known.get(weights) ?? modeSplit(weights, modes, classOf);
    this.known.set(weights, split);
    return split;
  }

  ofSpan(weights: SiteModel['rates']['junction']): ModeSplit {
    return this.of(weights, this.system.plan.spanModes, this.effects.ofMode);
  }

  ofStation(weights: SiteModel['rates']['station']): ModeSplit {
    return this.of(weights, this.system.plan.stationModes, this.stationClass);
  }
}

function spanComponent(
  component: ComponentName,
  split: ModeSplit,
  masses: Float64Array,
  from: number,
  ok: number,
): ComponentChances {
  return { component, modes: splitModes(split, masses[ok]!, masses, from) };
}

function trunkPlaces(
  site: SiteModel,
  t: number,
  masses: TrunkPosterior,
  stations: readonly (StationPosterior | null)[],
  accounts: TrunkAccounts,
): PlaceChance[] {
  const { tree, effects, weights, portWeights } = site.trunks[t]!;
  const splits = new Splits(site.system, effects);
  const trunk = tree.id;
  const places: PlaceChance[] = [portPlace(site.system, portWeights, trunk, masses, accounts.port)];
  const [perSpan, next] = [massesPerSpan(effects), massesPerComponent(effects)];
  const component = (name: ComponentName, split: ModeSplit, from: number) =>
    spanComponent(name, split, masses.spans, from, from + next - 1);
  const chances = zeroTable(site.system.stationClasses.count + 1);
  for (let n = 0; n < tree.count; n++) {
    const at = n * perSpan;
    const { junctionOut, cable, junctionIn, station: stationWeights } = weights[n]!;
    const from = tree.nodeIds[tree.parent[n]!] ?? null;
    places.push({
      place: { kind: 'span', trunk, from, to: tree.nodeIds[n]! },
      probability: masses.spans[at + 3 * next]!,
      accounts: accounts.spans[n]!,
      components: [
        component('junction-out', splits.ofSpan(junctionOut), at),
        component('cable', splits.ofSpan(cable), at + next),
        component('junction-in', splits.ofSpan(junctionIn), at + 2 * next),
      ],
    });
    const station = stations[n];
    const place = { kind: 'station', trunk, node: tree.nodeIds[n]! } as const;
    if (tree.nodes[n]!.isOut) places.push({ place, probability: 0, accounts: 0, components: [] });
    if (!station) continue;
    const split = splits.ofStation(stationWeights);
    let faulty = 0;
    chances.set(station.classes);
    chances[station.classes.length] = station.short;
    for (let k = 1; k < chances.length; k++) faulty += chances[k]!;
    places.push({
      place,
      probability: faulty,
      accounts: accounts.stations[n]!,
      components: [{ component: 'station', modes: splitModes(split, chances[0]!, chances) }],
    });
  }
  return places;
}

function portPlace(
  { plan: { portModes } }: System,
  weights: SiteModel['rates']['port'],
  trunk: string,
  masses: TrunkPosterior,
  accounts: number,
): PlaceChance {
  const split = modeSplit(weights, portModes, [0]);
  return {
    place: { kind: 'port', trunk },
    probability: masses.portNoOutput,
    accounts,
    components: [
      { component: 'port', modes: splitModes(split, masses.portOk, [masses.portNoOutput]) },
    ],
  };
}

function headEndPlace(
  names: readonly string[],
  chances: Float64Array,
  accounts: number,
): PlaceChance {
  const modes: Record<string, number> = { ok: chances[0]! };
  names.forEach((mode, m) => (modes[mode] = chances[m + 1]!));
  return {
    place: { kind: 'head-end' },
    probability: chances.reduce((sum, chance, mode) => (mode === 0 ? sum : sum + chance), 0),
    accounts,
    components: [{ component: 'head-end', modes }],
  };
}

/** Every place with the chance that something there is faulty, and its components' modes; by what they account for. */
export function placeChances(
  site: SiteModel,
  { headEnd, trunks, stations }: Posterior,
  accounts: Accounts,
): PlaceChance[] {
  const places = [
    headEndPlace(site.headEnd.modes, headEnd, accounts.headEnd),
    ...trunks.flatMap((trunk, t) => trunkPlaces(site, t, trunk, stations[t]!, accounts.trunks[t]!)),
  ];
  const byProbability = sortLargestFirst(
    places,
    (place) => place.probability,
    (a, b) => comparePlaces(a.place, b.place),
  );
  return sortLargestFirst(
    byProbability,
    (place) => place.accounts,
    () => 0,
  );
}
