import type { Place } from '../../drawing/drawn-node.js';
import type { ComponentName } from '../posterior/locate-result.js';
import type { Core } from '../../plan/cores.js';
import type { Condition } from '../../plan/error-rates.js';
import type { FunctionName } from '../../plan/functions.js';
import type { HeadEndModeName, StationMode } from '../../plan/modes.js';
import { coresIn, headEndEffect } from '../../plan/plan-tables.js';
import { PLAN } from './default-system.js';
import type { LocateRequest } from '../request/locate-request.js';
import { trunkTree } from '../sweep/trunk-tree.js';
import { comparePlaces } from '../posterior/order.js';
import type { ProbableWorld, WorldFault } from './probable-world.js';
import { shortsFromPort, type TrunkState, trunkState } from './trunk-state.js';

/** What is so in one world, everything that it does not name being ok. */
export interface WorldAnswers {
  /** `cutPast`: as it is while everything that this node feeds is disconnected. */
  condition: (trunk: string, node: string, name: FunctionName, cutPast?: string) => Condition;
  /** The cores that arrive at a node, and whether the supply is weak. */
  feed: (trunk: string, node: string, cutPast?: string) => { cores: Core[]; weak: boolean };
  /** The cores whose short can be seen from the port: it takes them off the whole trunk. */
  shortsSeen: (trunk: string, cutPast?: string) => Core[];
  /** How the component is faulty (of a span: one of its three); null if it is ok. */
  modeOf: (place: Place, component: ComponentName) => string | null;
  isFaulty: (place: Place) => boolean;
}

/** Answers about the worlds of a request's drawing. Unknown trunks and nodes are a RangeError. */
export function worldReader(
  request: Pick<LocateRequest, 'trunks' | 'exposureDays'>,
): (world: Pick<ProbableWorld, 'faults'>) => WorldAnswers {
  const trees = new Map(
    request.trunks.map((trunk) => [trunk.id, trunkTree(PLAN, trunk, request.exposureDays)]),
  );
  const positions = new Map(
    [...trees].map(([id, tree]) => [id, new Map(tree.nodeIds.map((node, n) => [node, n]))]),
  );
  const treeOf = (trunk: string) => trees.get(trunk) ?? unknown('trunk', trunk);
  const positionOf = (trunk: string, node: string) =>
    positions.get(trunk)?.get(node) ?? unknown('node', node);
  const groupsOf: GroupsOf = (trunk, n) => treeOf(trunk).nodes[n]?.groups ?? [];
  return ({ faults }) => {
    const cutAt = (trunk: string, cutPast?: string) =>
      cutPast === undefined ? null : positionOf(trunk, cutPast);
    const states = remembered((trunk, cutPast) =>
      trunkState(treeOf(trunk), faults, cutAt(trunk, cutPast)),
    );
    const shorts = remembered((trunk, cutPast) =>
      coresIn(PLAN, shortsFromPort(treeOf(trunk), faults, cutAt(trunk, cutPast))),
    );
    return answersOf(faults, states, shorts, { positionOf, groupsOf });
  };
}

function unknown(what: string, id: string): never {
  throw new RangeError(`"${id}" is not a ${what} of this drawing`);
}

/** The groups of the node at this position. */
type GroupsOf = (trunk: string, n: number) => readonly string[];

type ByCut<T> = (trunk: string, cutPast?: string) => T;

function remembered<T>(find: ByCut<T>): ByCut<T> {
  const byTrunk = new Map<string, Map<string | undefined, T>>();
  return (trunk, cutPast) => {
    const known = byTrunk.get(trunk) ?? new Map<string | undefined, T>();
    byTrunk.set(trunk, known);
    const found = known.get(cutPast) ?? find(trunk, cutPast);
    known.set(cutPast, found);
    return found;
  };
}

interface Positions {
  positionOf: (trunk: string, node: string) => number;
  groupsOf: GroupsOf;
}

function answersOf(
  faults: readonly WorldFault[],
  stateOf: ByCut<TrunkState>,
  shortsSeen: ByCut<Core[]>,
  { positionOf, groupsOf }: Positions,
): WorldAnswers {
  const at = (place: Place) => faults.filter((fault) => comparePlaces(fault.place, place) === 0);
  const headEnd = faults.find(({ place }) => place.kind === 'head-end');
  const effect = headEnd && headEndEffect(PLAN, headEnd.mode as HeadEndModeName);
  const condition: WorldAnswers['condition'] = (trunk, node, name, cutPast) => {
    const state = stateOf(trunk, cutPast);
    const n = positionOf(trunk, node);
    const station = faults.find(
      ({ place }) => place.kind === 'station' && place.node === node && place.trunk === trunk,
    );
    const here = station ? PLAN.stationDisables[station.mode as StationMode] : 0;
    const func = PLAN.functions.indexOf(name);
    const isSwitched = effect?.group == null || groupsOf(trunk, n).includes(effect.group);
    const everywhere = effect && isSwitched ? effect.disables : 0;
    const missing = (PLAN.coresNeeded[func] ?? 0) & ~(state.feeds[n] ?? 0);
    if (missing || (everywhere | here) & (1 << func)) return 'dead';
    return state.weak[n] ? 'weak' : 'good';
  };
  return {
    condition,
    feed: (trunk, node, cutPast) => {
      const { feeds, weak } = stateOf(trunk, cutPast);
      const n = positionOf(trunk, node);
      return { cores: coresIn(PLAN, feeds[n] ?? 0), weak: weak[n] === 1 };
    },
    shortsSeen,
    modeOf: (place, component) =>
      at(place).find((fault) => fault.component === component)?.mode ?? null,
    isFaulty: (place) => at(place).length > 0,
  };
}
