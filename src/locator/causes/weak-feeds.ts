/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LiveColumns } from '../sweep/descend-span.js';
import { joined } from '../sweep/join.js';
import { productWith } from '../sweep/split-join.js';
import type { SweptStations } from '../sweep/sweep-site.js';
import type { SpanSlot } from '../sweep/trunk-tables.js';
import { NOT_IN_QUESTION } from './causes-by-class.js';
import { rowColumns, liveIn, weighedWays, type WeighedWays } from './merged-ways.js';
import { type Passage, passagesInto, type Way } from './passages.js';
import type { Point } from './point.js';
import { climb, climbMoved, meet, meetMoved, weakRows, weakWays } from './weak-ways.js';
import { zeroTable } from '../numbers/zero-table.js';

// The first bad joint on the way to a point: a message goes up from the point alone, in worlds in which the function is
// weak there, and over weak feeds only. Where it meets a full feed from above at a bad joint, that is the first.

/** Tables to write into by turns. */
type Scratch = [Float64Array, Float64Array, Float64Array];

/** What is the same for every point of a trunk that needs one reach: the way from each node, worked out when it is gone. */
interface WeakWay {
  readonly passages: readonly Passage[];
  /** The messages down above each component. */
  readonly downs: readonly Float64Array[];
  /** By component: what goes on from weak to weak, and what meets a full feed there; null where scales change. */
  readonly keeps: readonly (WeighedWays<Way> | null)[];
  readonly weakens: readonly (WeighedWays<Way> | null)[];
}

/** The ways of bad joints on one trunk, gone from each of its points. */
export class WeakFeeds {
  private readonly known = new Map<number, (WeakWay | undefined)[]>();
  private scratch: Scratch = [new Float64Array(), new Float64Array(), new Float64Array()];

  constructor(
    private readonly swept: SweptStations,
    private readonly trunk: number,
  ) {}

  private wayInto(n: number, reach: number): WeakWay {
    const { count } = this.swept.sweeps[this.trunk]!.model.tree;
    const ofReach = this.known.get(reach) ?? new Array<WeakWay | undefined>(count);
    this.known.set(reach, ofReach);
    return (ofReach[n] ??= this.makeWay(n, reach));
  }

  private makeWay(n: number, reach: number): WeakWay {
    const up = this.swept.sweeps[this.trunk]!;
    const { along } = this.swept.trunks[this.trunk]!;
    const { model, tables } = up;
    const { at, columns } = tables.spans[n]!;
    const { count } = model.space;
    const passages = passagesInto(up, n);
    const ways = weakWays(model.space, model.effects, reach);
    return {
      passages,
      downs: [
        tables.down.subarray(at * count, (at + columns) * count),
        along[n]!.overCable,
        along[n]!.overJunctionIn,
      ],
      keeps: passages.map((passage) => weighedWays(passage, ways.keeps)),
      weakens: passages.map((passage) => weighedWays(passage, ways.weakens)),
    };
  }

  /** As long as the span with most columns wants. */
  private tables(): Scratch {
    const { tables, model } = this.swept.sweeps[this.trunk]!;
    if (this.scratch[0].length === 0) {
      const most = tables.spans.reduce((columns, span) => Math.max(columns, span.columns), 0);
      const make = () => zeroTable(most * model.space.count);
      this.scratch = [make(), make(), make()];
    }
    return this.scratch;
  }

  /**
   * Posterior masses in which each component of the spans on the way to a point is the first bad joint of a function that is
   * only weak there: three components from the top down of each span on the way, from the point's own up to the port.
   *
   * @param working by head-end group, whether it leaves the function working: elsewhere there is no such mass
   * @param whole what they add up to: above where nothing of it is left the way is not gone, and they stay 0
   */
  to(point: Point, working: Float64Array, whole: number): Float64Array {
    const { swept } = this;
    const { model, tables } = swept.sweeps[this.trunk]!;
    const { parent } = model.tree;
    const reach = model.system.feedClasses.reachNeeded[point.func]!;
    const ways = weakWays(model.space, model.effects, reach);
    const lives = new LiveWorking(swept, working);
    const rows = weakRows(model.space, reach);
    const scratch = this.tables();
    const over = { lives, rows, bottom: scratch[2] };
    const masses = zeroTable(3 * stepsTo(point.node, parent));
    let message = fromStation(swept, point, working, over);
    let at = 0;
    let left = whole;
    for (let n = point.node; n >= 0 && left > NOT_IN_QUESTION; n = parent[n]!) {
      const { columns } = tables.spans[n]!;
      const live = lives.of(tables.spans[n]!);
      const way = this.wayInto(n, reach);
      for (let part = 2; part >= 0; part--) {
        const above = scratch[part & 1]!;
        above.fill(0, 0, model.space.count * columns);
        const weakens = way.weakens[part]!;
        const keeps = way.keeps[part]!;
        const down = way.downs[part]!;
        const passage = way.passages[part]!;
        if (weakens && keeps) {
          const visited = liveIn(keeps, live);
          const width = rowColumns(keeps, passage);
          masses[at + part] = meet(weakens, width, visited, down, message);
          climb(keeps, width, visited, message, above);
        } else {
          masses[at + part] = meetMoved(passage, ways.weakens, live, down, message);
          climbMoved(passage, ways.keeps, live, message, above);
        }
        left -= masses[at + part]!;
        message = above;
      }
      at += 3;
      const from = parent[n]!;
      if (from >= 0) message = throughNode(swept, this.trunk, from, n, message, over);
    }
    return masses;
  }
}

function stepsTo(node: number, parent: Int32Array): number {
  let steps = 0;
  for (let n = node; n >= 0; n = parent[n]!) steps++;
  return steps;
}

/** Of the columns and contexts that are live, those of head-end groups that leave a function working. */
class LiveWorking {
  private readonly known = new Map<number, Int32Array>();
  private last: LiveColumns | null = null;
  constructor(
    private readonly swept: SweptStations,
    private readonly working: Float64Array,
  ) {}

  among(contexts: number): Int32Array {
    const known = this.known.get(contexts);
    if (known) return known;
    const { working } = this;
    const made = this.swept.live(contexts).filter((c) => working[c % working.length]! > 0);
    this.known.set(contexts, made);
    return made;
  }

  of({ columns, contexts }: SpanSlot): LiveColumns {
    const [ofColumns, ofContexts] = [this.among(columns), this.among(contexts)];
    // Nearly always as in the span before.
    if (this.last?.columns !== ofColumns || this.last.contexts !== ofContexts)
      this.last = { columns: ofColumns, contexts: ofContexts };
    return this.last;
  }
}

/** What a message is about, and the table that it is written into at the bottom of a span. */
interface Over {
  readonly lives: LiveWorking;
  readonly rows: Uint16Array;
  readonly bottom: Float64Array;
}

/** The message at the bottom of the span into the point's node. */
function fromStation(
  swept: SweptStations,
  { trunk, node, func }: Point,
  working: Float64Array,
  over: Over,
): Float64Array {
  const { model, tables } = swept.sweeps[trunk]!;
  const { at, contexts } = tables.nodes[node]!;
  const { classes } = model.station[node]!;
  const likelihood = model.likelihood[node]?.table ?? null;
  const { feeds, weak, reach } = model.space;
  const { feedClasses, stationClasses } = model.system;
  const gain = zeroTable(feeds * contexts);
  for (let i = 0; i < gain.length; i++) {
    const feed = Math.floor(i / contexts);
    const context = i % contexts;
    if (!weak[feed] || reach[feed]! < feedClasses.reachNeeded[func]!) continue;
    if (working[context % working.length] === 0) continue;
    const row = context * stationClasses.count * feeds + feed;
    for (let k = 0; k < stationClasses.count; k++)
      if (!(stationClasses.disables[k]! & (1 << func)))
        gain[i]! += classes[k]! * (likelihood ? likelihood[row + k * feeds]! : 1);
    gain[i]! *= tables.scale[at * feeds + i]!;
  }
  const { join } = swept.sweeps[trunk]!.nodes[node]!;
  return bottomOf(swept, trunk, node, joined(join), gain, 0, over);
}

/** From a table of the joined spans below a node to the bottom of the span above, over weak feeds. */
function bottomOf(
  swept: SweptStations,
  trunk: number,
  node: number,
  { table, at: start, stride, step, map }: ReturnType<typeof joined>,
  gain: Float64Array,
  gainAt: number,
  over: Over,
): Float64Array {
  const { tables, nodes } = swept.sweeps[trunk]!;
  const above = tables.spans[node]!;
  const { contexts } = tables.nodes[node]!;
  const { keep, spanContext } = nodes[node]!;
  const { space } = tables;
  const { rows, bottom } = over;
  const live = over.lives.among(contexts);
  bottom.fill(0, 0, space.count * above.columns);
  for (let r = 0; r < rows.length; r++) {
    const s = rows[r]!;
    const feed = space.feed[s]!;
    for (let m = 0; m < keep.weight.length; m++) {
      const to = s * above.columns + keep.to[m]! * above.contexts;
      const from = start + s * stride + keep.from[m]! * step;
      const weight = keep.weight[m]!;
      const own = gainAt + feed * contexts;
      for (let k = 0; k < live.length; k++) {
        const c = live[k]!;
        bottom[to + spanContext[c]!]! += weight * table[from + map[c]!]! * gain[own + c]!;
      }
    }
  }
  return bottom;
}

/** The message at the top of the span into `child`, up through the node that feeds it. */
function throughNode(
  swept: SweptStations,
  trunk: number,
  node: number,
  child: number,
  message: Float64Array,
  over: Over,
): Float64Array {
  const { model, tables, nodes } = swept.sweeps[trunk]!;
  const k = model.tree.children[node]!.indexOf(child);
  const product = productWith(tables, nodes[node]!.join, k, message);
  return bottomOf(
    swept,
    trunk,
    node,
    product,
    tables.gain,
    tables.nodes[node]!.at * model.space.feeds,
    over,
  );
}
