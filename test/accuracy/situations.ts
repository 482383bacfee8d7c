import {
  DEFAULT_ERROR_RATES,
  DEFAULT_FALSE_ALARM_RATIO,
  DEFAULT_RATES,
  type ErrorRates,
  locate,
  type LocateRequest,
  type LocateResult,
  type Place,
  type RequestObservation,
} from '#app/locator/index.js';
import { type WorldFault, worldReader } from '#app/locator/worlds/index.js';
import { seededRandom } from '../electrical/seeded-random.js';
import { HABITS } from './habits.js';
import { type PlaceName, portName, spanName, stationName } from './places.js';
import type { Random, Site } from './site.js';
import { drawRows, EXPOSURE_DAYS, HEAD_END, type Situation } from './situation-table.js';
import { drawOutcome } from './tell.js';
import type { FunctionName } from './true-conditions.js';

/** What the locator is told, and how its own error rates are off. */
export interface Posing {
  falseAlarmRatio?: number;
  errors?: ErrorRates;
}

export interface SituationOutcome {
  stated: number;
  isRight: boolean;
  /** Of who knows the family and weighs every single fault; null where that is not all that he would have to weigh. */
  isBestRight: boolean | null;
  habits: Record<keyof typeof HABITS, boolean>;
  /** -log2 of what was stated of the cause. */
  bits: number;
}

export function runSituation(of: Situation, seed: number, cases: number, posing: Posing = {}) {
  const random = seededRandom(seed);
  return Array.from({ length: cases }, () => runCase(of, posing, random));
}

function runCase(of: Situation, posing: Posing, random: Random): SituationOutcome {
  const site = drawRows(random);
  const trunks = site.trunks.map(({ id, nodes }) => ({
    id,
    nodes: nodes.map(({ id: node, kind, cableMetres }) => ({
      id: node,
      kind,
      cableMetres,
      ...(of.group?.includes(node) && { groups: ['a floor'] }),
      ...(of.out?.includes(node) && { isOut: true }),
    })),
  }));
  const read = worldReader({ trunks, exposureDays: EXPOSURE_DAYS });
  const all = faultsOf(site, of);
  const made = madeAt(of, all, read).flatMap((i) => all[i] ?? []);
  const conditions = (fault: WorldFault | null) => read({ faults: fault ? [fault] : [] }).condition;
  const { fault, isConfused } = of.isContradicted
    ? drawContradicted(of, made, conditions, random)
    : { fault: weighted(made, random).fault, isConfused: false };
  const condition = conditions(fault);
  const observations = saidOf(of, condition, isConfused, random);
  if (observations[0]?.outcome === 'works') return runCase(of, posing, random);
  const { errors, ...rest } = posing;
  const request: LocateRequest = {
    trunks,
    exposureDays: EXPOSURE_DAYS,
    observations,
    ...rest,
    ...(of.sound && { looks: [...of.sound] }),
    explanations: 0,
  };
  const stated = causesAt(locate(request, errors));
  const best = bestCauses(made);
  const [[node, name] = ['', 'announcement' as const]] = of.asked;
  const isWell = condition(node.charAt(0), node, name) === 'good';
  const truth = fault === null || isWell ? 'nothing' : causeName(fault);
  const [named = '', chance = 0] = [...stated][0] ?? [];
  const [bestNamed = ''] = best.keys();
  const told = observations.map((one) => {
    return { ...one, informant: { kind: 'office' as const } };
  });
  const isHabitRight = (name: keyof typeof HABITS) => HABITS[name](site, told)[0] === truth;
  return {
    stated: chance,
    isRight: named === truth,
    isBestRight: of.isContradicted ? null : bestNamed === truth,
    habits: {
      nearestSilentRoom: isHabitRight('nearestSilentRoom'),
      topMostAllSilentSpan: isHabitRight('topMostAllSilentSpan'),
      likeliestByRates: isHabitRight('likeliestByRates'),
    },
    bits: -Math.log2(Math.max(stated.get(truth) ?? 0, 2 ** -20)),
  };
}

function saidOf(
  of: Situation,
  condition: ReturnType<ReturnType<typeof worldReader>>['condition'],
  isConfused: boolean,
  random: Random,
): RequestObservation[] {
  const caller = { kind: 'office', ...(of.isContradicted && { id: 'first' }) } as const;
  const observations = of.asked.map(([node, name]): RequestObservation => {
    const trunk = node.charAt(0);
    const person = { ...caller, confused: isConfused };
    const outcome = drawOutcome(person, condition(trunk, node, name), random);
    return {
      trunk,
      node,
      function: name,
      outcome,
      ...(of.isContradicted && { informant: caller }),
    };
  });
  const [first] = observations;
  if (first !== undefined && of.isContradicted) {
    first.outcome = 'fails';
    const other = { kind: 'office', id: 'second' } as const;
    observations.push({ ...first, outcome: 'works', informant: other });
  }
  return observations;
}

/**
 * What is wrong, and whether the first caller is confused, given that of the first thing asked about the one says that it
 * fails and the other that it works: by the model's rates, errors and share of calls about nothing.
 */
function drawContradicted(
  of: Situation,
  made: readonly Weighted[],
  conditions: (fault: WorldFault | null) => ReturnType<ReturnType<typeof worldReader>>['condition'],
  random: Random,
): { fault: WorldFault | null; isConfused: boolean } {
  const [[node, name] = ['', 'announcement' as const]] = of.asked;
  const { office } = DEFAULT_ERROR_RATES;
  const truths = [
    ...made.map(({ fault, weight }) => ({ fault, weight: (weight * EXPOSURE_DAYS) / 365.25 })),
    ...(of.hasCallsAboutNothing ? [{ fault: null, weight: DEFAULT_FALSE_ALARM_RATIO }] : []),
  ];
  const all = truths.flatMap(({ fault, weight }) => {
    const [works, , fails] = office[conditions(fault)(node.charAt(0), node, name)];
    const worksOfSecond = (1 - office.confused) * works + office.confused / 3;
    return [
      { fault, isConfused: false, weight: weight * worksOfSecond * (1 - office.confused) * fails },
      { fault, isConfused: true, weight: weight * worksOfSecond * (office.confused / 3) },
    ];
  });
  return weighted(all, random);
}

const known = new Map<Situation, number[]>();

/** Which of the faults of a site make the situation: the same at every site, whatever its metres. */
function madeAt(
  of: Situation,
  all: readonly Weighted[],
  read: ReturnType<typeof worldReader>,
): readonly number[] {
  const before = known.get(of);
  if (before !== undefined) return before;
  const made = all.flatMap(({ fault }, i) => {
    const { condition } = read({ faults: [fault] });
    const well = (node: string, name: FunctionName = 'announcement') =>
      condition(node.charAt(0), node, name) === 'good';
    return of.isMadeBy(well, fault) ? [i] : [];
  });
  known.set(of, made);
  return made;
}

export interface Weighted {
  fault: WorldFault;
  weight: number;
}

/** Every single fault of the site with its rate. */
export function faultsOf(
  site: Site,
  { group, out = [] }: Pick<Situation, 'group' | 'out'> = {},
): Weighted[] {
  const all: Weighted[] = [];
  const add = (of: Omit<WorldFault, 'mode'>, rates: object, scale = 1) => {
    for (const [mode, rate] of Object.entries(rates) as [string, number][]) {
      const isOfGroup = of.component === 'head-end' && mode.startsWith('group-');
      if (isOfGroup && group === undefined) continue;
      all.push({
        fault: { ...of, mode: isOfGroup ? `${mode}:a floor` : mode },
        weight: rate * scale,
      });
    }
  };
  add({ place: HEAD_END, component: 'head-end' }, DEFAULT_RATES.headEnd);
  for (const { id: trunk, nodes } of site.trunks) {
    add({ place: { kind: 'port', trunk }, component: 'port' }, DEFAULT_RATES.port);
    for (const { id: node, feeder, cableMetres } of nodes) {
      const place = { kind: 'span', trunk, from: nodes[feeder]?.id ?? null, to: node } as const;
      add({ place, component: 'junction-out' }, DEFAULT_RATES.junction);
      add({ place, component: 'cable' }, DEFAULT_RATES.cablePerMetre, cableMetres);
      add({ place, component: 'junction-in' }, DEFAULT_RATES.junction);
      if (!out.includes(node))
        add(
          { place: { kind: 'station', trunk, node }, component: 'station' },
          DEFAULT_RATES.station,
        );
    }
  }
  return all;
}

export function weighted<T extends { weight: number }>(list: readonly T[], random: Random): T {
  let left = random() * list.reduce((sum, { weight }) => sum + weight, 0);
  return list.find(({ weight }) => (left -= weight) < 0) ?? list[0]!;
}

/** A short is one cause, wherever on its trunk it is. */
function causeName({ place, mode }: WorldFault): PlaceName {
  return mode.startsWith('short-') && 'trunk' in place ? `short ${place.trunk}` : placeName(place);
}

export function placeName(place: Place): PlaceName {
  if (place.kind === 'head-end') return 'head-end';
  if (place.kind === 'port') return portName(place.trunk);
  if (place.kind === 'station') return stationName(place.trunk, place.node);
  return spanName(place.trunk, Number(place.to.slice(1)) - 1);
}

export function sorted(chances: ReadonlyMap<PlaceName, number>): Map<PlaceName, number> {
  return new Map([...chances].sort(([, a], [, b]) => b - a));
}

export function bestCauses(made: readonly Weighted[]): Map<PlaceName, number> {
  const total = made.reduce((sum, { weight }) => sum + weight, 0);
  const chances = new Map<PlaceName, number>();
  for (const { fault, weight } of made)
    chances.set(causeName(fault), (chances.get(causeName(fault)) ?? 0) + weight / total);
  return sorted(chances);
}

/** The causes of the first point, by place. */
function causesAt({ troubles }: LocateResult): Map<PlaceName, number> {
  const chances = new Map<PlaceName, number>();
  const trouble = troubles.find(({ node }) => node === troubles[0]?.node);
  for (const { cause, probability } of trouble?.causes ?? []) {
    const name =
      cause.kind === 'span'
        ? spanName(cause.trunk, Number(cause.to.slice(1)) - 1)
        : cause.kind === 'station'
          ? stationName(cause.trunk, cause.node)
          : cause.kind === 'port'
            ? portName(cause.trunk)
            : cause.kind === 'short'
              ? `short ${cause.trunk}`
              : cause.kind;
    chances.set(name, (chances.get(name) ?? 0) + probability);
  }
  return sorted(chances);
}
