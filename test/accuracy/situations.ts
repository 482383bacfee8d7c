import {
  DEFAULT_RATES,
  type ErrorRates,
  locate,
  type LocateRequest,
  type LocateResult,
  type RequestLook,
  type RequestObservation,
} from '#app/locator/index.js';
import { type WorldFault, worldReader } from '#app/locator/worlds/index.js';
import { seededRandom } from '../electrical/seeded-random.js';
import { HABITS } from './habits.js';
import { type PlaceName, portName, spanName, stationName } from './places.js';
import { type Node, type Random, type Site } from './site.js';
import { drawOutcome } from './tell.js';
import type { FunctionName } from './true-conditions.js';

// The situations of the revised model's table, each as a family: a fault by the model's rates among those that make the
// situation, told with the model's errors. Right is the place that is the cause, not any place where something is broken.

/** Trunk A has 20 rooms in a row, trunk B ten. `A9` to `A14` are a group where the family has one. */
const ROOMS = { A: 20, B: 10 } as const;
const EXPOSURE_DAYS = 91;

interface Situation {
  name: string;
  /** Which faults make it, told the conditions that each makes. */
  isMadeBy: (well: (node: string, name?: FunctionName) => boolean, fault: WorldFault) => boolean;
  /** What is asked about, by room and function. */
  asked: readonly [node: string, name: FunctionName][];
  group?: readonly string[];
  /** What somebody looked at and found sound, where that was not what is broken. */
  sound?: readonly RequestLook[];
}

const announced = (...nodes: string[]) =>
  nodes.map((node): [string, FunctionName] => [node, 'announcement']);
const office = { informant: { kind: 'office' }, seen: 'sound' } as const;
const HEAD_END = { kind: 'head-end' } as const;
const TAIL = Array.from({ length: 6 }, (_, n) => `A${n + 15}`);
const FLOOR = Array.from({ length: 6 }, (_, n) => `A${n + 9}`);

export const SITUATIONS: readonly Situation[] = [
  {
    name: 'one room silent between two heard',
    isMadeBy: (well) => !well('A9') && well('A8') && well('A10'),
    asked: announced('A9', 'A8', 'A10'),
  },
  {
    name: 'the same, and the office says: head-end on, volume up',
    isMadeBy: (well, { mode }) =>
      !well('A9') && well('A8') && well('A10') && mode !== 'volume-down',
    asked: announced('A9', 'A8', 'A10'),
    sound: [
      { ...office, place: HEAD_END, part: 'power' },
      { ...office, place: { kind: 'station', trunk: 'A', node: 'A9' }, part: 'volume-down' },
    ],
  },
  {
    name: 'the bell silent in one room only, announcements heard there',
    isMadeBy: (well) =>
      !well('A9', 'bell') && well('A9') && well('A8', 'bell') && well('A10', 'bell'),
    asked: [
      ['A9', 'bell'],
      ['A9', 'announcement'],
      ['A8', 'bell'],
      ['A10', 'bell'],
    ],
  },
  {
    name: 'announcements nowhere, the bell everywhere',
    isMadeBy: (well) => !well('A1') && !well('B1') && well('A1', 'bell') && well('B1', 'bell'),
    asked: [...announced('A2', 'A9', 'B3'), ['A2', 'bell'], ['A9', 'bell'], ['B3', 'bell']],
  },
  {
    name: 'silent from one room on',
    isMadeBy: (well) => well('A11') && !well('A12') && !well('A20'),
    asked: announced('A12', 'A13', 'A16', 'A20', 'A11'),
  },
  {
    name: 'the same, terminals there opened and found sound',
    isMadeBy: (well, { component }) =>
      well('A11') && !well('A12') && !well('A20') && component !== 'junction-in',
    asked: announced('A12', 'A13', 'A16', 'A20', 'A11'),
    sound: [
      {
        seen: 'sound',
        place: { kind: 'span', trunk: 'A', from: 'A11', to: 'A12' },
        part: 'junction-in',
      },
    ],
  },
  {
    name: 'a floor that is a group silent, the rest heard',
    isMadeBy: (well) => FLOOR.every((node) => !well(node)) && well('A8') && well('A15'),
    asked: announced('A9', 'A10', 'A12', 'A8', 'A15'),
    group: FLOOR,
  },
  {
    name: '5: the tail, which is a group, silent',
    isMadeBy: (well) => TAIL.every((node) => !well(node)) && well('A14'),
    asked: announced('A15', 'A16', 'A20', 'A14'),
    group: TAIL,
  },
  {
    name: 'all of one line silent, the other heard',
    isMadeBy: (well) => !well('A1') && !well('A20') && well('B1'),
    asked: announced('A1', 'A5', 'A12', 'A20', 'B2'),
  },
  {
    name: 'the same, its lamps dark: the fuse or the terminals beside it',
    isMadeBy: (well) => !well('A1', 'lamp') && !well('A20', 'lamp') && well('B1', 'lamp'),
    asked: [...announced('A1', 'A5', 'A20', 'B2'), ['A1', 'lamp'], ['A20', 'lamp'], ['B2', 'lamp']],
  },
];

/** What the locator is told, and how its own error rates are off. */
export interface Posing {
  falseAlarmRatio?: number;
  errors?: ErrorRates;
}

export interface SituationOutcome {
  stated: number;
  isRight: boolean;
  /** Of who knows the family and weighs every single fault. */
  isBestRight: boolean;
  bestStated: number;
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
    })),
  }));
  const read = worldReader({ trunks, exposureDays: EXPOSURE_DAYS });
  const all = faultsOf(site, of.group !== undefined);
  const made = madeAt(of, all, read).flatMap((i) => all[i] ?? []);
  const { fault } = weighted(made, random);
  const { condition } = read({ faults: [fault] });
  const observations = of.asked.map(([node, name]): RequestObservation => {
    const trunk = node.charAt(0);
    const outcome = drawOutcome({ kind: 'office' }, condition(trunk, node, name), random);
    return { trunk, node, function: name, outcome };
  });
  const [first] = observations;
  if (first?.outcome === 'works') return runCase(of, posing, random);
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
  const truth = placeName(fault);
  const [named = '', chance = 0] = [...stated][0] ?? [];
  const [bestNamed = '', bestChance = 0] = [...best][0] ?? [];
  const told = observations.map((one) => ({ ...one, informant: { kind: 'office' as const } }));
  const isHabitRight = (name: keyof typeof HABITS) => HABITS[name](site, told)[0] === truth;
  return {
    stated: chance,
    isRight: named === truth,
    bestStated: bestChance,
    isBestRight: bestNamed === truth,
    habits: {
      nearestSilentRoom: isHabitRight('nearestSilentRoom'),
      topMostAllSilentSpan: isHabitRight('topMostAllSilentSpan'),
      likeliestByRates: isHabitRight('likeliestByRates'),
    },
    bits: -Math.log2(Math.max(stated.get(truth) ?? 0, 2 ** -20)),
  };
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

function drawRows(random: Random): Site {
  const trunks = Object.entries(ROOMS).map(([id, rooms]) => ({
    id,
    nodes: Array.from({ length: rooms }, (_, n): Node => ({
      id: `${id}${n + 1}`,
      kind: 'station',
      feeder: n - 1,
      cableMetres: Math.round(30 + random() * 370) / 10,
    })),
  }));
  return { trunks, exposureDays: EXPOSURE_DAYS };
}

interface Weighted {
  fault: WorldFault;
  weight: number;
}

/** Every single fault of the site with its rate. */
function faultsOf(site: Site, hasGroup: boolean): Weighted[] {
  const all: Weighted[] = [];
  const add = (of: Omit<WorldFault, 'mode'>, rates: object, scale = 1) => {
    for (const [mode, rate] of Object.entries(rates) as [string, number][]) {
      const isOfGroup = of.component === 'head-end' && mode.startsWith('group-');
      if (isOfGroup && !hasGroup) continue;
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
      add({ place: { kind: 'station', trunk, node }, component: 'station' }, DEFAULT_RATES.station);
    }
  }
  return all;
}

function weighted(list: readonly Weighted[], random: Random): Weighted {
  let left = random() * list.reduce((sum, { weight }) => sum + weight, 0);
  return list.find(({ weight }) => (left -= weight) < 0) ?? list[0]!;
}

/** A short is one cause, wherever on its trunk it is. */
function placeName({ place, mode }: WorldFault): PlaceName {
  if (mode.startsWith('short-') && 'trunk' in place) return `short ${place.trunk}`;
  if (place.kind === 'head-end') return 'head-end';
  if (place.kind === 'port') return portName(place.trunk);
  if (place.kind === 'station') return stationName(place.trunk, place.node);
  return spanName(place.trunk, Number(place.to.slice(1)) - 1);
}

function sorted(chances: ReadonlyMap<PlaceName, number>): Map<PlaceName, number> {
  return new Map([...chances].sort(([, a], [, b]) => b - a));
}

function bestCauses(made: readonly Weighted[]): Map<PlaceName, number> {
  const total = made.reduce((sum, { weight }) => sum + weight, 0);
  const chances = new Map<PlaceName, number>();
  for (const { fault, weight } of made)
    chances.set(placeName(fault), (chances.get(placeName(fault)) ?? 0) + weight / total);
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

/** Of a drawing that is wrong: whether that is what the locator thinks likeliest, and how likely. */
export interface DrawingOutcome {
  stated: number;
  isRight: boolean;
}

/**
 * Four rooms in the middle hang from a tee that the drawing does not show, and their cable is broken; or two rooms in a row
 * have each other's name, and the cable between them is broken.
 */
export function runWrongDrawing(
  kind: 'branch' | 'swapped',
  seed: number,
  cases: number,
): DrawingOutcome[] {
  const random = seededRandom(seed);
  const silent = kind === 'branch' ? [9, 10, 11, 12] : [9, 11, 12, 15, 20];
  const heard = kind === 'branch' ? [3, 7, 8, 13, 14, 20] : [3, 7, 8, 10];
  return Array.from({ length: cases }, () => {
    const site = drawRows(random);
    const told = (room: number, condition: 'good' | 'dead') =>
      (['announcement', 'lamp'] as const).map((name): RequestObservation => {
        const outcome = drawOutcome({ kind: 'office' }, condition, random);
        return { trunk: 'A', node: `A${room}`, function: name, outcome };
      });
    const observations = [
      ...silent.flatMap((room) => told(room, 'dead')),
      ...heard.flatMap((room) => told(room, 'good')),
    ];
    const trunks = site.trunks.map(({ id, nodes }) => ({
      id,
      nodes: nodes.map(({ id: node, kind: of, cableMetres }) => {
        return { id: node, kind: of, cableMetres };
      }),
    }));
    const request = { trunks, exposureDays: EXPOSURE_DAYS, observations, explanations: 0 };
    const { alternatives, asDrawn } = locate(request).drawing;
    const right = alternatives.filter((one) =>
      kind === 'swapped' ? one.kind === kind : one.kind !== 'swapped',
    );
    const stated = right.reduce((sum, { probability }) => sum + probability, 0);
    return { stated, isRight: stated > Math.max(asDrawn, 1 - asDrawn - stated) };
  });
}
