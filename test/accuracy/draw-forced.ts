import { drawFaults, type Faults, MODEL_RATES, type NodeFaults } from './faults.js';
import { type ConditionAt, goThrough } from './go-through.js';
import {
  HEAD_END,
  type PlaceName,
  positionOf,
  spanName,
  stationName,
  toRequest,
  truePlaces,
} from './places.js';
import type { Case, Draw } from './run-row.js';
import { drawSite, pick, type Random, roomsOf, type Site, wayUp } from './site.js';
import type { Told } from './tell.js';
import { type FunctionName, trueConditions } from './true-conditions.js';

// Cases in which one thing is always wrong that the model does not have or thinks rare, besides the model's faults.

/** What is put in, and the rooms of which at least one must be told to fail for a case of this kind. */
interface Forced {
  complaint: FunctionName;
  silenced: (trunk: number, node: number) => boolean;
  places: PlaceName[];
}

function forcedCase(
  site: Site,
  faults: Faults,
  { complaint, silenced, places }: Forced,
  condition: ConditionAt,
  random: Random,
): Case | undefined {
  const evidence = goThrough(site, condition, random, { complaint });
  const noticed = (one: Told) =>
    one.outcome === 'fails' &&
    one.function === complaint &&
    silenced(
      site.trunks.findIndex(({ id }) => id === one.trunk),
      positionOf(site, one),
    );
  if (!evidence?.some(noticed)) return undefined;
  const truth = truePlaces(site, faults);
  for (const place of places) truth.add(place);
  return { site, evidence, request: toRequest(site, evidence), truth };
}

/** Two neighbouring rooms have each other's address: calls to either go to the other. */
export const drawSwappedAddresses: Draw = (random) => {
  const site = drawSite(random);
  const faults = drawFaults(site, MODEL_RATES, random);
  const rooms = roomsOf(site);
  const first = Math.floor(random() * (rooms.length - 1));
  const pair = rooms.slice(first, first + 2);
  const silenced = (trunk: number, node: number) =>
    pair.some((room) => room.trunk === trunk && room.node === node);
  const places = pair.map(({ trunk, node }) => {
    const { id, nodes } = site.trunks[trunk]!;
    return stationName(id, nodes[node]!.id);
  });
  const otherwise = trueConditions(site, faults);
  const condition: ConditionAt = (trunk, node, name) =>
    (name === 'room-call' || name === 'talkback') && silenced(trunk, node)
      ? 'dead'
      : otherwise(trunk, node, name);
  return forcedCase(site, faults, { complaint: 'room-call', silenced, places }, condition, random);
};

/** A group is switched off at the head-end for one function, and the group is the tail of a trunk: two rooms or more. */
export const drawGroupSetting: Draw = (random) => {
  const site = drawSite(random);
  const faults = drawFaults(site, MODEL_RATES, random);
  const rooms = roomsOf(site);
  const start = pick(rooms, random);
  const trunkOfGroup = site.trunks[start.trunk]!;
  const silenced = (trunk: number, node: number) =>
    trunk === start.trunk && wayUp(trunkOfGroup, node).includes(start.node);
  const size = rooms.filter(({ trunk, node }) => silenced(trunk, node)).length;
  if (size < 2 || size === rooms.length) return undefined;
  const complaint = pick(['announcement', 'bell', 'music'] as const, random);
  const otherwise = trueConditions(site, faults);
  const condition: ConditionAt = (trunk, node, name) =>
    name === complaint && silenced(trunk, node) ? 'dead' : otherwise(trunk, node, name);
  const forced = { complaint, silenced, places: [HEAD_END] };
  return forcedCase(site, faults, forced, condition, random);
};

const COMPONENTS = ['junctionOut', 'cable', 'junctionIn'] as const satisfies (keyof NodeFaults)[];

/** A short, and between it and the head-end an open that hides it. */
export const drawHiddenShort: Draw = (random) => {
  const site = drawSite(random);
  const faults = drawFaults(site, MODEL_RATES, random);
  const t = Math.floor(random() * site.trunks.length);
  const trunk = site.trunks[t]!;
  const shorted = Math.floor(random() * trunk.nodes.length);
  const above = wayUp(trunk, shorted).slice(1);
  if (above.length === 0) return undefined;
  const opened = pick(above, random);
  const core = pick(['supply', 'speech', 'select'], random);
  const { nodes } = faults.trunks[t]!;
  nodes[shorted]![pick(COMPONENTS, random)] = `short-${core}`;
  nodes[opened]![pick(COMPONENTS, random)] = pick(
    ['parted', 'open-return', `open-${core}`],
    random,
  );
  const complaint: FunctionName =
    core === 'select' ? 'room-call' : pick(['announcement', 'bell'] as const, random);
  const silenced = (other: number, node: number) =>
    other === t && wayUp(trunk, node).includes(opened);
  const forced = { complaint, silenced, places: [] };
  const one = forcedCase(site, faults, forced, trueConditions(site, faults), random);
  return one && { ...one, hidden: spanName(trunk.id, shorted) };
};
