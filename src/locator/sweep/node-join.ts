/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { Moves } from '../readings/label-space.js';
import { contextMap } from './contexts.js';
import { type Join, joinSpans } from './join.js';
import { sameContexts } from './product-scales.js';
import type { TrunkModel } from './trunk-model.js';
import type { TrunkTables } from './trunk-tables.js';

/** A node between the spans that it feeds and the span that feeds it. */
export interface NodeJoin {
  readonly join: Join;
  /** The context of the span above for each context of the node. */
  readonly spanContext: Int32Array;
  /** From labels of the joined spans to those of the span above; and where the station shorts the supply. */
  readonly keep: Moves;
  readonly short: Moves;
}

/** One label, which stays. */
const NO_LABELS: Moves = {
  from: Uint16Array.of(0),
  to: Uint16Array.of(0),
  weight: Float64Array.of(1),
};

/** The node as it is before what comes up is known. */
export function joinNode(model: TrunkModel, n: number, tables: TrunkTables): NodeJoin {
  const { plan, tree } = model;
  const flags = plan.nodeFlags[n]!;
  const spanFlags = plan.spanFlags[n]!;
  const children = tree.children[n]!;
  const labels = model.labels?.nodes[n];
  const join = joinSpans(
    tables,
    plan.groups,
    flags,
    children.map((child) => tables.spans[child]!),
    children.map((child) => plan.spanFlags[child]!),
    labels?.joins,
    model.cutAt[n],
  );
  const { keep, short } = labels ?? { keep: NO_LABELS, short: NO_LABELS };
  const spanContext =
    flags.length === spanFlags.length
      ? sameContexts(tables.nodes[n]!.contexts)
      : contextMap(plan.groups, flags, spanFlags);
  return { join, spanContext, keep, short };
}
