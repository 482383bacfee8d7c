import { type DrawnTree, treeOf } from '../../drawing/drawn-tree.js';
import type { FunctionSet } from '../../plan/functions.js';
import { functionSet, type PlanTables } from '../../plan/plan-tables.js';
import type { RequestNode, RequestTrunk } from '../request/locate-request.js';

/** A trunk of a request as a rooted tree in arrays. */
export interface TrunkTree extends DrawnTree<RequestNode> {
  /** Whether a station is at work there; one that is out is inert. */
  readonly isStation: readonly boolean[];
  /** Functions that the station there is fitted with. */
  readonly fitted: readonly FunctionSet[];
  readonly cableMetres: Float64Array;
  /** Years since the span and the station were last proven good. */
  readonly years: Float64Array;
}

const DAYS_PER_YEAR = 365.25;

/** The tree of a checked trunk. `exposureDays` is the request's, for nodes that carry none. */
export function trunkTree(plan: PlanTables, trunk: RequestTrunk, exposureDays: number): TrunkTree {
  const { id, count, nodes, nodeIds, position, parent, children, first } = treeOf(trunk);
  // Written out: what is spread in has a shape of its own each time for the engine, and what is compiled for one is thrown away.
  return {
    id,
    count,
    nodes,
    nodeIds,
    position,
    parent,
    children,
    first,
    isStation: nodes.map((node) => node.kind === 'station' && node.isOut !== true),
    fitted: nodes.map(({ lacks = [] }) => plan.allFunctions & ~functionSet(plan, lacks)),
    cableMetres: Float64Array.from(nodes, (node) => node.cableMetres),
    years: Float64Array.from(nodes, (node) => (node.exposureDays ?? exposureDays) / DAYS_PER_YEAR),
  };
}
