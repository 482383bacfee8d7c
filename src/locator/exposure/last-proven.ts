import type { FunctionName } from '../../plan/functions.js';
import type { PlanTables } from '../../plan/plan-tables.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import { provenByFunction, type ProvenModes } from './proven-modes.js';

/** A function that was seen to work at a station, by somebody whose word is proof. */
export interface Proof {
  trunk: string;
  node: string;
  function: FunctionName;
  daysAgo: number;
}

/** Days since a function was last proven, in the plan's order; Infinity where it never was. */
type Days = Float64Array;

export const neverProven = ({ functions }: PlanTables) =>
  new Float64Array(functions.length).fill(Infinity);

function earlier(days: Days, other: Days): void {
  other.forEach((ago, f) => (days[f] = Math.min(days[f] ?? Infinity, ago)));
}

/** Days since each mode of a component was last proven absent, given what was proven through it. */
export function daysSinceProven<Mode extends string>(
  plan: PlanTables,
  modes: readonly Mode[],
  through: Days,
  provenBy: (proven: ProvenModes) => readonly string[],
): Record<Mode, number> {
  const table = Object.fromEntries(modes.map((mode) => [mode, Infinity])) as Record<Mode, number>;
  provenByFunction(plan).forEach((all, f) => {
    const proven = provenBy(all);
    for (const mode of modes)
      if (proven.includes(mode)) table[mode] = Math.min(table[mode], through[f] ?? Infinity);
  });
  return table;
}

/** What was last proven at each station of a trunk, through each node, and at the port. */
export interface TrunkProof {
  readonly at: readonly Days[];
  /** At the node or anywhere behind it: all of that was fed through the node's span. */
  readonly through: readonly Days[];
  readonly port: Days;
}

/** Proofs about other trunks are passed over. */
export function trunkProof(
  plan: PlanTables,
  tree: TrunkTree,
  proofs: readonly Proof[],
): TrunkProof {
  const position = new Map(tree.nodeIds.map((id, n) => [id, n]));
  const at = tree.nodeIds.map(() => neverProven(plan));
  for (const proof of proofs) {
    if (proof.trunk !== tree.id) continue;
    const days = at[position.get(proof.node) ?? -1];
    const f = plan.functions.indexOf(proof.function);
    if (days) days[f] = Math.min(days[f] ?? Infinity, proof.daysAgo);
  }
  const through = at.map((days) => days.slice());
  const port = neverProven(plan);
  for (let n = tree.count - 1; n >= 0; n--)
    earlier(through[tree.parent[n] ?? -1] ?? port, through[n] ?? neverProven(plan));
  return { at, through, port };
}

/** What was last proven of the head-end: by any station of any trunk. */
export function headEndProof(plan: PlanTables, trunks: readonly TrunkProof[]): Days {
  const days = neverProven(plan);
  for (const { port } of trunks) earlier(days, port);
  return days;
}
