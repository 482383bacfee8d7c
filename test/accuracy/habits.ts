import { MODEL_RATES, totalRate } from './faults.js';
import {
  HEAD_END,
  type PlaceName,
  portName,
  positionOf,
  spanName,
  stationName,
  trunkOf,
} from './places.js';
import { type Site, wayUp } from './site.js';
import type { Told } from './tell.js';

/** What people do without a computation: places in the order in which they would go there. */
export type Habit = (drawing: Site, evidence: readonly Told[]) => PlaceName[];

interface ToldRoom {
  trunk: string;
  node: string;
  position: number;
  /** Metres of cable from the head-end. */
  metres: number;
  /** Functions that more people said do not work than that they do, and the others told about. */
  silent: Set<string>;
  heard: Set<string>;
}

function toldRooms(drawing: Site, evidence: readonly Told[]): ToldRoom[] {
  const rooms = new Map<string, Told[]>();
  for (const one of evidence) {
    const key = stationName(one.trunk, one.node);
    rooms.set(key, [...(rooms.get(key) ?? []), one]);
  }
  return [...rooms.values()].map((all) => {
    const { trunk: id, node } = all[0]!;
    const trunk = trunkOf(drawing, id);
    const position = positionOf(drawing, all[0]!);
    const names = [...new Set(all.map((one) => one.function))];
    const against = (name: string) =>
      all.reduce(
        (sum, one) => sum + (one.function !== name ? 0 : one.outcome === 'works' ? -1 : 1),
        0,
      );
    return {
      trunk: id,
      node,
      position,
      metres: wayUp(trunk, position).reduce((sum, n) => sum + trunk.nodes[n]!.cableMetres, 0),
      silent: new Set(names.filter((name) => against(name) > 0)),
      heard: new Set(names.filter((name) => against(name) <= 0)),
    };
  });
}

const compareNames = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

/** To the silent room with the least cable to it: its station, the span to it; then the next nearest. */
export const nearestSilentRoom: Habit = (drawing, evidence) =>
  toldRooms(drawing, evidence)
    .filter(({ silent }) => silent.size > 0)
    .sort((a, b) => a.metres - b.metres || compareNames(a.node, b.node))
    .flatMap(({ trunk, node, position }) => [stationName(trunk, node), spanName(trunk, position)]);

/**
 * To a span behind which every room told about is silent: the one with the most of them, of several the nearest to the
 * head-end.
 */
export const topMostAllSilentSpan: Habit = (drawing, evidence) => {
  const rooms = toldRooms(drawing, evidence);
  const spans = drawing.trunks.flatMap((trunk) => {
    const own = rooms
      .filter((room) => room.trunk === trunk.id)
      .map((room) => ({ ...room, way: new Set(wayUp(trunk, room.position)) }));
    return trunk.nodes.flatMap((_, n) => {
      const behind = own.filter(({ way }) => way.has(n));
      if (behind.length === 0 || behind.some(({ silent }) => silent.size === 0)) return [];
      return [
        {
          name: spanName(trunk.id, n),
          rooms: behind.length,
          depth: wayUp(trunk, n).length,
        },
      ];
    });
  });
  return spans
    .sort((a, b) => b.rooms - a.rooms || a.depth - b.depth || compareNames(a.name, b.name))
    .map(({ name }) => name);
};

/**
 * To what fails most often, of all that feeds a silent room, unless a room behind it was told to work in a function that
 * elsewhere does not.
 */
export const likeliestByRates: Habit = (drawing, evidence) => {
  const rooms = toldRooms(drawing, evidence);
  const troubled = new Set(rooms.flatMap(({ silent }) => [...silent]));
  const excuses = ({ heard }: ToldRoom) => [...troubled].some((name) => heard.has(name));
  const rates = new Map<PlaceName, number>();
  const excused = new Set<PlaceName>();
  for (const room of rooms) {
    const trunk = trunkOf(drawing, room.trunk);
    const places: [PlaceName, number][] = [
      [HEAD_END, totalRate(MODEL_RATES.headEnd)],
      [portName(room.trunk), totalRate(MODEL_RATES.port)],
      [stationName(room.trunk, room.node), totalRate(MODEL_RATES.station)],
      ...wayUp(trunk, room.position).map((n): [PlaceName, number] => [
        spanName(room.trunk, n),
        2 * totalRate(MODEL_RATES.junction) +
          trunk.nodes[n]!.cableMetres * totalRate(MODEL_RATES.cablePerMetre),
      ]),
    ];
    for (const [name, rate] of places) {
      if (room.silent.size > 0) rates.set(name, rate);
      if (excuses(room)) excused.add(name);
    }
  }
  return [...rates]
    .filter(([name]) => !excused.has(name))
    .sort(([a, rateA], [b, rateB]) => rateB - rateA || compareNames(a, b))
    .map(([name]) => name);
};

export const HABITS = { nearestSilentRoom, topMostAllSilentSpan, likeliestByRates };
