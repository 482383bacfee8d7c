import { InvalidLocateRequest } from '../request/errors.js';
import type { RequestObservation } from '../request/locate-request.js';
import { MAX_STATES, MAX_STATES_IN_A_ROW } from '../request/limits.js';
import { countViews, type PointKind, type SpaceShape } from './space-shape.js';
import { StateSpace, TooManyStates } from './state-space.js';
import type { System } from './system.js';
import type { TrunkTree } from './trunk-tree.js';

/** Where one trunk was disconnected while something was told of it. */
export interface Disconnections {
  /** Nodes that feed something; what these feed was off. In their order the ways of connecting the trunk, 0 the whole. */
  readonly nodes: readonly number[];
  readonly space: StateSpace;
}

/** @throws InvalidLocateRequest when the states of a trunk are more than the stated limit */
export function disconnectionsOf(
  system: System,
  observations: readonly RequestObservation[],
  trees: readonly TrunkTree[],
): Disconnections[] {
  return trees.map((tree) => {
    const reaches = new Map<number, number>();
    let last = 0;
    for (const [o, { trunk, disconnectedBelow, function: name }] of observations.entries()) {
      if (trunk !== tree.id || disconnectedBelow === undefined) continue;
      const n = tree.nodeIds.indexOf(disconnectedBelow);
      // Nothing hangs there: the trunk was whole.
      if ((tree.children[n] ?? []).length === 0) continue;
      last = o;
      const reach = system.feedClasses.reachNeeded[system.plan.functions.indexOf(name)] ?? 0;
      reaches.set(n, (reaches.get(n) ?? 0) | (1 << reach));
    }
    if (reaches.size === 0) return { nodes: [], space: system.states };
    const nodes = [...reaches.keys()].sort((a, b) => a - b);
    const shape = { reaches: nodes.map((n) => reaches.get(n) ?? 0), ...waysApart(tree, nodes) };
    return {
      nodes,
      space: spaceOf(system, shape, mostStatesOf(tree)) ?? refuse(last, tree, shape),
    };
  });
}

function mostStatesOf({ first, children }: TrunkTree): number {
  const isRow = first.length === 1 && children.every((fed) => fed.length < 2);
  return isRow ? MAX_STATES_IN_A_ROW : MAX_STATES;
}

function refuse(observation: number, tree: TrunkTree, { reaches }: SpaceShape): never {
  throw new InvalidLocateRequest([
    {
      pointer: `/observations/${observation}/disconnectedBelow`,
      reason: `trunk "${tree.id}" was disconnected at ${reaches.length} nodes for functions that make more than ${mostStatesOf(tree)} states of a point; that is the limit`,
    },
  ]);
}

/** What the points of a trunk have between them and the port and beyond them changes at the disconnections alone. */
function waysApart(tree: TrunkTree, cuts: readonly number[]): Omit<SpaceShape, 'reaches'> {
  const all = 2 ** (cuts.length + 1) - 1;
  const bitOf = new Map(cuts.map((cut, c) => [cut, 2 << c]));
  const seenIn = new Set([all]);
  for (const cut of cuts) {
    let seen = all;
    for (let n = cut; n >= 0; n = tree.parent[n] ?? -1) {
      const bit = bitOf.get(n) ?? 0;
      if (bit > 0) seenIn.add((seen &= ~bit));
    }
  }
  const cutOff = new Uint32Array(tree.count);
  const beyond = new Uint32Array(tree.count);
  for (let n = 0; n < tree.count; n++) {
    const above = tree.parent[n] ?? -1;
    if (above >= 0) cutOff[n] = (cutOff[above] ?? 0) | (bitOf.get(above) ?? 0);
  }
  const kinds = new Map<string, PointKind>();
  const add = (kind: PointKind) => kinds.set(JSON.stringify(kind), kind);
  /** Each of the spans that one node feeds, and one after the other together. */
  const join = (nodes: readonly number[]) => {
    let together = 0;
    for (const n of nodes) {
      add({ cutOff: cutOff[n] ?? 0, beyond: beyond[n] ?? 0 });
      together |= beyond[n] ?? 0;
      add({ cutOff: cutOff[n] ?? 0, beyond: together });
    }
    return together;
  };
  for (let n = tree.count - 1; n >= 0; n--)
    beyond[n] = join(tree.children[n] ?? []) | (bitOf.get(n) ?? 0);
  join(tree.first);
  return { seenIn: [...seenIn], points: [...kinds.values()] };
}

/** A few are remembered: each costs more to make than a sweep. */
const REMEMBERED = 8;
const rememberedOf = new WeakMap<System, Map<string, StateSpace>>();

/** Null where it has more states than `most`. */
function spaceOf(system: System, shape: SpaceShape, most: number): StateSpace | null {
  const known = rememberedOf.get(system) ?? new Map<string, StateSpace>();
  rememberedOf.set(system, known);
  const key = JSON.stringify(shape);
  const found = known.get(key) ?? makeSpace(system, shape, most);
  if (found === null || found.count > most) return null;
  known.delete(key);
  known.set(key, found);
  const [oldest] = known.keys();
  if (known.size > REMEMBERED && oldest !== undefined) known.delete(oldest);
  return found;
}

function makeSpace(
  { plan, feedClasses }: System,
  shape: SpaceShape,
  most: number,
): StateSpace | null {
  if (countViews(feedClasses, shape) > most) return null;
  try {
    return new StateSpace(plan, feedClasses, shape, most);
  } catch (error) {
    if (error instanceof TooManyStates) return null;
    throw error;
  }
}
