/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { contextCount } from './contexts.js';
import { crossNode, descendNode, type NodeMasses, type NodeTables } from './cross-node.js';
import { crossSpan, descendSpan, type SpanMasses } from './cross-span.js';
import { splitJoin } from './join.js';
import { crossPort, descendPort, type PortTables } from './port.js';
import { emptySpanTables, type SpanTables } from './span-tables.js';
import type { TrunkModel } from './trunk-model.js';

/** The upward sweep of one trunk, kept for the way down. */
export interface UpwardSweep {
  readonly model: TrunkModel;
  readonly spans: readonly SpanTables[];
  readonly nodes: readonly NodeTables[];
  readonly port: PortTables;
}

/** One pass from the last nodes to the port (fault model, section 3), linear in the nodes. */
export function sweepUp(model: TrunkModel): UpwardSweep {
  const { tree, plan } = model;
  const spans = plan.spanFlags.map((flags) => emptySpanTables(contextCount(plan.groups, flags)));
  const nodes = new Array<NodeTables>(tree.count);
  for (let n = tree.count - 1; n >= 0; n--) {
    const below = tree.children[n]!.map((child) => spans[child]!);
    nodes[n] = crossNode(model, n, below, spans[n]!);
    crossSpan(spans[n]!, model.junction[n]!, model.cable[n]!);
  }
  const port = crossPort(
    model,
    tree.first.map((n) => spans[n]!),
  );
  return { model, spans, nodes, port };
}

/** Posterior masses of everything on one trunk. */
export interface TrunkMasses {
  readonly portOk: number;
  readonly portNoOutput: number;
  readonly spans: readonly SpanMasses[];
  readonly nodes: readonly NodeMasses[];
}

/** One pass from the port to the last nodes; `logWeights` as descendPort takes them. */
export function sweepDown(up: UpwardSweep, logWeights: Float64Array): TrunkMasses {
  const { model } = up;
  const { tree } = model;
  const port = descendPort(model, up.port, logWeights);
  const arriving = new Array<Float64Array>(tree.count);
  splitJoin(up.port.join, port.toJoin).forEach((down, k) => (arriving[tree.first[k]!] = down));
  const spans: SpanMasses[] = [];
  const nodes: NodeMasses[] = [];
  for (let n = 0; n < tree.count; n++) {
    const span = descendSpan(up.spans[n]!, model.junction[n]!, model.cable[n]!, arriving[n]!);
    const node = descendNode(up.nodes[n]!, span.atBottom);
    spans.push(span.masses);
    nodes.push(node.masses);
    splitJoin(up.nodes[n]!.join, node.toJoin).forEach(
      (down, k) => (arriving[tree.children[n]![k]!] = down),
    );
  }
  return { portOk: port.ok, portNoOutput: port.noOutput, spans, nodes };
}
