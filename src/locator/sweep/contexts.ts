import { InvalidLocateRequest } from '../request/errors.js';
import { MAX_TABLES, STATES_OF_A_TABLE } from '../request/limits.js';
import type { TrunkTree } from './trunk-tree.js';
import type { ConfusionFlag } from './statements.js';

/**
 * What the messages of a trunk are conditioned on, point by point. A *context* is a head-end group and, for each flag
 * that is open at the point, whether it is set: index = bits of the flags * groups + group. A flag is open on the spans
 * between the nodes that share it and nowhere else, so many informants do not multiply, only overlapping ones do.
 */
export interface ContextPlan {
  readonly groups: number;
  /** Flags open at each node, ascending: its own evidence's and those of the spans below. */
  readonly nodeFlags: readonly (readonly number[])[];
  /** Flags open on the span into each node: those that something outside the subtree shares. */
  readonly spanFlags: readonly (readonly number[])[];
  /** Flags open at the port, and those that other trunks share. */
  readonly portFlags: readonly number[];
  readonly siteFlags: readonly number[];
}

const ascending = (flags: Iterable<number>) => [...new Set(flags)].sort((a, b) => a - b);

const NO_FLAGS: readonly number[] = [];

export function planContexts(
  tree: TrunkTree,
  trunk: number,
  flags: readonly ConfusionFlag[],
  groups: number,
): ContextPlan {
  if (flags.length === 0) {
    const none = tree.nodeIds.map(() => NO_FLAGS);
    return { groups, nodeFlags: none, spanFlags: none, portFlags: NO_FLAGS, siteFlags: NO_FLAGS };
  }
  const ownFlags: number[][] = tree.nodeIds.map(() => []);
  const wanted = new Map<number, number>();
  flags.forEach((flag, f) => {
    const nodes = flag.nodes.get(trunk) ?? [];
    for (const n of nodes) ownFlags[n]?.push(f);
    if (nodes.length > 0) wanted.set(f, flag.nodes.size > 1 ? Infinity : nodes.length);
  });
  const nodeFlags: number[][] = tree.nodeIds.map(() => []);
  const spanFlags: number[][] = tree.nodeIds.map(() => []);
  const seenBelow: Map<number, number>[] = tree.nodeIds.map(() => new Map<number, number>());
  for (let n = tree.count - 1; n >= 0; n--) {
    const seen = new Map((ownFlags[n] ?? []).map((f) => [f, 1]));
    for (const child of tree.children[n] ?? [])
      for (const [f, count] of seenBelow[child] ?? []) seen.set(f, (seen.get(f) ?? 0) + count);
    const open = ascending([
      ...(ownFlags[n] ?? []),
      ...(tree.children[n] ?? []).flatMap((child) => spanFlags[child] ?? []),
    ]);
    const shared = open.filter((f) => (seen.get(f) ?? 0) < (wanted.get(f) ?? 0));
    nodeFlags[n] = open;
    spanFlags[n] = shared;
    seenBelow[n] = new Map(shared.map((f) => [f, seen.get(f) ?? 0]));
  }
  const portFlags = ascending(tree.first.flatMap((n) => spanFlags[n] ?? []));
  const siteFlags = portFlags.filter((f) => wanted.get(f) === Infinity);
  return { groups, nodeFlags, spanFlags, portFlags, siteFlags };
}

/** Tables as large as one of `states` states of a point. */
export const tableSize = (states: number) => Math.ceil(states / STATES_OF_A_TABLE);

/**
 * @param sizes by trunk, of its tables
 * @throws InvalidLocateRequest when nodes, head-end groups and informants make more tables than the stated limit
 */
export function checkContexts(plans: readonly ContextPlan[], sizes: readonly number[]): void {
  let tables = 0;
  plans.forEach(({ groups, nodeFlags, portFlags }, t) => {
    for (const flags of [portFlags, ...nodeFlags])
      tables += (sizes[t] ?? 1) * contextCount(groups, flags);
  });
  if (tables > MAX_TABLES)
    throw new InvalidLocateRequest([
      {
        pointer: '/trunks',
        reason: `nodes times sets of functions that the head-end can fail, times 1 for each ${STATES_OF_A_TABLE} states that disconnections make, come to ${tables}; at most ${MAX_TABLES}`,
      },
    ]);
}

export function contextCount(groups: number, flags: readonly number[]): number {
  return groups << flags.length;
}

/** For each context over the flags `from`, the context over the fewer flags `to` that agrees with it. */
export function contextMap(
  groups: number,
  from: readonly number[],
  to: readonly number[],
): Int32Array {
  const keep = to.map((flag) => from.indexOf(flag));
  return Int32Array.from({ length: contextCount(groups, from) }, (_, context) => {
    const bits = Math.floor(context / groups);
    const kept = keep.reduce((set, position, f) => set | (((bits >> position) & 1) << f), 0);
    return kept * groups + (context % groups);
  });
}

/** For each context over the flags `from`, the prior of the flags that are not in `to`. */
export function closingChances(
  groups: number,
  from: readonly number[],
  to: readonly number[],
  flags: readonly ConfusionFlag[],
): Float64Array {
  return Float64Array.from({ length: contextCount(groups, from) }, (_, context) => {
    const bits = Math.floor(context / groups);
    return from.reduce((chance, flag, position) => {
      if (to.includes(flag)) return chance;
      const confused = flags[flag]?.confused ?? 0;
      return chance * ((bits >> position) & 1 ? confused : 1 - confused);
    }, 1);
  });
}
