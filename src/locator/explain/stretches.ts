/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { Stretch } from '../posterior/locate-result.js';
import type { Quietness } from '../posterior/quietness.js';
import { compareIds } from '../../drawing/drawn-tree.js';
import { sortLargestFirst } from '../posterior/order.js';
import type { Moves } from '../readings/label-space.js';
import { massesPerComponent, massesPerSpan } from '../sweep/descend-span.js';
import type { Ratios } from '../sweep/scale.js';
import type { LiveContexts } from '../sweep/live-contexts.js';
import type { SweptSite } from '../sweep/sweep-site.js';
import type { TrunkMasses, UpwardSweep } from '../sweep/sweep-trunk.js';
import type { TrunkModel } from '../sweep/trunk-model.js';
import { isInformative, nodesOfRun } from './informative-nodes.js';
import { zeroTable } from '../numbers/zero-table.js';

/** What is at the top of a run and goes on through good spans only, by state, label and context of its spans. */
class GoodSoFar {
  private masses: Float64Array;
  constructor(
    private readonly sweep: UpwardSweep,
    private readonly live: LiveContexts,
    private n: number,
  ) {
    const { at, columns } = sweep.tables.spans[n]!;
    const { count } = sweep.model.space;
    this.masses = sweep.tables.down.slice(at * count, (at + columns) * count);
  }

  /** P(something of this span is faulty, and nothing of those above it in the run), by the first that is. */
  firstFaulty(): number {
    const { at: slot, columns } = this.sweep.tables.spans[this.n]!;
    const { faulty, space } = this.sweep.tables;
    const columnsHere = this.live(columns);
    let sum = 0;
    for (let i = 0; i < this.masses.length; i += columns)
      for (const c of columnsHere) sum += this.masses[i + c]! * faulty[slot * space.count + i + c]!;
    return sum;
  }

  /** Through this span, good, and its node, of which nothing is known, to the top of the next span. */
  goOn(next: number): void {
    const { tables, model, ratios } = this.sweep;
    const { count, feed, feeds } = model.space;
    const { contexts, columns } = tables.spans[this.n]!;
    const { up, inward } = ratios[this.n]!;
    const good =
      model.junctionOut[this.n]!.ok * model.cable[this.n]!.ok * model.junctionIn[this.n]!.ok;
    const columnsHere = this.live(columns);
    for (let s = 0; s < count; s++) {
      const cell = feed[s]! * (feeds + 1) * contexts;
      for (const i of columnsHere) {
        const c = cell + (i % contexts);
        this.masses[s * columns + i]! *= good * at(up, c) * at(up, c) * at(inward, c);
      }
    }
    this.masses = this.belowNode(tables.spans[next]!.columns);
    this.n = next;
  }

  /** Past a node, where a station that nothing is known of may short the supply. */
  private belowNode(columnsBelow: number): Float64Array {
    const { tables, nodes } = this.sweep;
    const { count, feed, feeds, dead, shorted } = tables.space;
    const { contexts, columns } = tables.spans[this.n]!;
    const { keep, short } = nodes[this.n]!;
    const { at: node } = tables.nodes[this.n]!;
    const below = zeroTable(count * columnsBelow);
    const contextsHere = this.live(contexts);
    const pass = (moves: Moves, s: number, above: number, gains: Float64Array, gainAt: number) => {
      for (let m = 0; m < moves.weight.length; m++)
        for (const c of contextsHere)
          below[s * columnsBelow + moves.from[m]! * contexts + c]! +=
            this.masses[above * columns + moves.to[m]! * contexts + c]! *
            moves.weight[m]! *
            gains[gainAt + c]!;
    };
    for (let s = 0; s < count; s++)
      pass(keep, s, s, tables.gain, node * feeds + feed[s]! * contexts);
    for (const s of dead) pass(short, s, shorted[s]!, tables.shortGain, node);
    return below;
  }
}

const at = (ratio: Ratios, cell: number) => (ratio === null ? 1 : ratio[cell]!);

function anyFaulty(
  sweep: UpwardSweep,
  live: LiveContexts,
  nodes: readonly number[],
  chances: readonly number[],
): number {
  const [first] = nodes;
  if (first === undefined || nodes.length === 1) return chances[0] ?? 0;
  const good = new GoodSoFar(sweep, live, first);
  return nodes.reduce((sum, _, i) => {
    if (i > 0) good.goOn(nodes[i]!);
    return sum + good.firstFaulty();
  }, 0);
}

/** P(faulty) of the spans of one stretch, and that any is. */
interface Faulty {
  readonly nodes: readonly number[];
  readonly chances: readonly number[];
  readonly any: number;
}

/** What was told with the cable off at a node tells apart what lies before and behind it. */
function endsStretch(model: TrunkModel, n: number): boolean {
  return isInformative(model, n) || model.cutAt[n]! > 0;
}

function stretchOf(
  sweep: UpwardSweep,
  live: LiveContexts,
  masses: TrunkMasses,
  first: number,
): Faulty {
  const { effects } = sweep.model;
  const { nodes } = nodesOfRun(sweep.model, first, endsStretch);
  const chances = nodes.map(
    (n) => masses.spans[n * massesPerSpan(effects) + 3 * massesPerComponent(effects)]!,
  );
  return { nodes, chances, any: anyFaulty(sweep, live, nodes, chances) };
}

function told({ tree }: TrunkModel, { nodes, chances, any }: Faulty): Stretch {
  const total = chances.reduce((sum, chance) => sum + chance, 0);
  const idOf = (n: number) => tree.nodeIds[n] ?? null;
  return {
    trunk: tree.id,
    from: idOf(tree.parent[nodes[0]!]!),
    to: tree.nodeIds[nodes.at(-1)!]!,
    probability: any,
    spans: nodes.map((n, i) => ({
      from: idOf(tree.parent[n]!),
      to: tree.nodeIds[n]!,
      share: total > 0 ? chances[i]! / total : 1 / nodes.length,
    })),
  };
}

/**
 * Every span of the site, in stretches: those between which nothing is known can be told apart by nothing but how often
 * such a span fails. Most probable first; equals by id.
 */
export function stretches(all: SweptSite, quiet: SweptSite | null, { mix }: Quietness): Stretch[] {
  const inQuiet = quiet && faultyStretches(quiet);
  const list = faultyStretches(all).map(({ nodes, chances, any, model }, i) => {
    const other = inQuiet?.[i];
    if (!other) return told(model, { nodes, chances, any });
    const mixed = chances.map((chance, s) => mix(chance, other.chances[s]!));
    return told(model, { nodes, chances: mixed, any: mix(any, other.any) });
  });
  return sortLargestFirst(
    list,
    ({ probability }) => probability,
    (a, b) => compareIds(a.trunk, b.trunk) || compareIds(a.to, b.to),
  );
}

function faultyStretches({ sweeps, trunks, live }: SweptSite) {
  return sweeps.flatMap((sweep, t) => {
    const { model } = sweep;
    const { tree } = model;
    const starts = [...tree.parent.keys()].filter((n) => {
      const above = tree.parent[n]!;
      return above < 0 || endsStretch(sweep.model, above);
    });
    return starts.map((first) => ({ model, ...stretchOf(sweep, live, trunks[t]!, first) }));
  });
}
