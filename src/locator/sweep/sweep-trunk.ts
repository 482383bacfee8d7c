/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { crossNode } from './cross-node.js';
import type { NodeJoin } from './node-join.js';
import { crossSpan, type SpanRatios } from './cross-span.js';
import { descendNode, downTarget, type NodeMasses } from './descend-node.js';
import { descendSpan, massesPerSpan } from './descend-span.js';
import { splitJoin } from './split-join.js';
import type { LiveContexts } from './live-contexts.js';
import { crossPort, descendPort, type PortJoin } from './port.js';
import type { SpanPriors } from './span-chances.js';
import type { TrunkModel } from './trunk-model.js';
import {
  copyUpwardAt,
  copyUpwardTables,
  emptySpan,
  emptyTrunkTables,
  type TrunkTables,
} from './trunk-tables.js';
import { copyOf, zeroTable } from '../numbers/zero-table.js';

/** The upward sweep of one trunk, kept for the way down. */
export interface UpwardSweep {
  readonly model: TrunkModel;
  readonly tables: TrunkTables;
  readonly ratios: readonly SpanRatios[];
  readonly nodes: readonly NodeJoin[];
  readonly port: PortJoin;
}

/** One that was done again after another. */
export interface SweptAgain extends UpwardSweep {
  /** By node, 1 where it was passed again. */
  readonly again: Uint8Array;
}

function spanOf({ junctionOut, cable, junctionIn }: TrunkModel, n: number): SpanPriors {
  return { junctionOut: junctionOut[n]!, cable: cable[n]!, junctionIn: junctionIn[n]! };
}

/** Upward through the span into a node. */
export function crossSpanInto(model: TrunkModel, n: number, tables: TrunkTables): SpanRatios {
  const { effects, labels } = model;
  return crossSpan(tables, tables.spans[n]!, effects, spanOf(model, n), labels?.spans[n]);
}

/** One pass from the last nodes to the port (fault model, section 3), linear in the nodes. */
export function sweepUp(model: TrunkModel): UpwardSweep {
  const tables = emptyTrunkTables(model);
  const count = model.tree.count;
  const nodes = new Array<NodeJoin>(count);
  const ratios = new Array<SpanRatios>(count);
  for (let n = count - 1; n >= 0; n--) {
    nodes[n] = crossNode(model, n, tables);
    ratios[n] = crossSpanInto(model, n, tables);
  }
  return { model, tables, ratios, nodes, port: crossPort(model, tables) };
}

/** Whether anything at a node, or in the span into it, is not as it was. */
function isOther(before: TrunkModel, model: TrunkModel, n: number): boolean {
  return (
    model.likelihood[n] !== before.likelihood[n] ||
    model.station[n] !== before.station[n] ||
    model.junctionOut[n] !== before.junctionOut[n] ||
    model.cable[n] !== before.cable[n] ||
    model.junctionIn[n] !== before.junctionIn[n]
  );
}

/** 1 at nodes where something is not as it was, and at all that feeds them. */
function changedNodes(before: TrunkModel, model: TrunkModel): Uint8Array {
  const { count, parent } = model.tree;
  const isChanged = new Uint8Array(count);
  for (let n = count - 1; n >= 0; n--) {
    if (isOther(before, model, n)) isChanged[n] = 1;
    if (isChanged[n] && parent[n]! >= 0) isChanged[parent[n]!] = 1;
  }
  return isChanged;
}

/**
 * The same once something else is known at some stations or of some spans: only they, and what they are fed through, are
 * passed again. The sweep before stays as it is, but for its way down.
 *
 * @param spare another sweep after the same one, which is done with
 */
export function sweepUpAgain(
  before: UpwardSweep,
  model: TrunkModel,
  spare?: SweptAgain,
): SweptAgain {
  const tables = spare?.tables ?? copyUpwardTables(before.tables);
  const nodes = before.nodes.slice();
  const ratios = before.ratios.slice();
  const again = changedNodes(before.model, model);
  for (let n = model.tree.count - 1; n >= 0; n--) {
    if (again[n]) {
      emptySpan(tables, n);
      nodes[n] = crossNode(model, n, tables, spare?.nodes[n]);
      ratios[n] = crossSpanInto(model, n, tables);
    } else if (spare?.again[n]) copyUpwardAt(n, before.tables, tables);
  }
  return { model, tables, ratios, nodes, port: crossPort(model, tables), again };
}

/** Posterior masses of everything on one trunk. */
export interface TrunkMasses extends NodeMasses {
  readonly portOk: number;
  readonly portNoOutput: number;
  /** By node, massesPerSpan each, as descendSpan lays them out; empty where they are not wanted. */
  readonly spans: Float64Array;
  /** The messages that came down inside the span into each node that was asked for. */
  readonly along: readonly (SpanMessages | undefined)[];
}

/** Downward messages over the cable and over the junction-in of one span, by state and column. */
export interface SpanMessages {
  readonly overCable: Float64Array;
  readonly overJunctionIn: Float64Array;
}

function keep({ overCable, overJunctionIn }: SpanMessages, size: number): SpanMessages {
  return { overCable: copyOf(overCable, size), overJunctionIn: copyOf(overJunctionIn, size) };
}

/** What of a trunk's masses is wanted. */
export interface WantedMasses {
  /** Into which nodes the messages that come down inside the span are kept; left out: none. */
  readonly isAskedFor?: (node: number) => boolean;
  /** Leaves out those of the spans. */
  readonly stationsAlone?: boolean;
  /** By node, 1 where they are wanted, and at all that feeds it; left out: everywhere. Elsewhere they stay 0. */
  readonly ways?: Uint8Array;
}

/** As long as the span with most columns wants. */
function scratchOf({ spans, space }: TrunkTables) {
  const most = Math.max(...spans.map((span) => span.columns)) * space.count;
  return {
    overCable: zeroTable(most),
    overJunctionIn: zeroTable(most),
    bottom: zeroTable(most),
  };
}

/** One pass from the port to the last nodes, over the contexts that are `live`; `logWeights` as descendPort takes them. */
export function sweepDown(
  up: UpwardSweep,
  logWeights: Float64Array,
  live: LiveContexts,
  { isAskedFor = () => false, stationsAlone = false, ways }: WantedMasses = {},
): TrunkMasses {
  const { model, tables } = up;
  const { count } = model.tree;
  const { count: states } = model.space;
  const port = descendPort(model, tables, up.port, logWeights);
  splitJoin(tables, up.port.join, port.toJoin);
  const perSpan = massesPerSpan(model.effects);
  const along = new Array<SpanMessages | undefined>(count);
  const masses: TrunkMasses = {
    along,
    slots: tables.nodes,
    portOk: port.ok,
    portNoOutput: port.noOutput,
    spans: zeroTable(stationsAlone ? 0 : count * perSpan),
    feeds: zeroTable(tables.scale.length),
    shorted: zeroTable(tables.shortGain.length),
  };
  const scratch = scratchOf(tables);
  for (let n = 0; n < count; n++) {
    if (ways?.[n] === 0) continue;
    const span = tables.spans[n]!;
    const [from, to] = [span.at * states, (span.at + span.columns) * states];
    const top = tables.down.subarray(from, to);
    descendSpan(
      tables,
      span,
      { columns: live(span.columns), contexts: live(span.contexts) },
      up.ratios[n]!,
      model.effects,
      spanOf(model, n),
      model.labels?.spans[n],
      { top, ...scratch },
      stationsAlone ? null : masses.spans,
      n * perSpan,
    );
    if (isAskedFor(n)) along[n] = keep(scratch, to - from);
    const { join } = up.nodes[n]!;
    const target = downTarget(tables, join);
    descendNode(
      tables,
      tables.nodes[n]!,
      live(tables.nodes[n]!.contexts),
      span,
      up.nodes[n]!,
      scratch.bottom,
      masses,
      target,
    );
    if (target.table !== tables.down) splitJoin(tables, join, target.table);
  }
  return masses;
}
