import { type CoreSet, SUPPLY } from '../../plan/cores.js';
import type { SpanChances } from '../sweep/span-chances.js';
import type { EffectClasses } from '../sweep/effect-classes.js';
import type { StationChances } from '../sweep/station-classes.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import { ComponentLabelsMaker } from './component-labels.js';
import type { ComponentLabels } from './label-shape.js';
import {
  type Label,
  type LabelledComponent,
  type LabelledLoop,
  NONE,
  type LabelOutcome,
  regroup,
  valuesAfterShort,
} from './label.js';
import { type LabelJoin, joinSpaces } from './label-joins.js';
import { LabelSpace, type Moves, movesBetween, movesThatStay } from './label-space.js';
import {
  CABLE,
  JUNCTION_IN,
  JUNCTION_OUT,
  PARTS,
  shortExcess,
  type ShortOrder,
  rankShorts,
  STATION,
} from './short-order.js';
import { shortSteps } from './short-steps.js';
import type { TrunkReadings } from './trunk-readings.js';

/** What the components of one span do to labels; null where they leave all as they are. */
export interface SpanLabels {
  readonly labels: number;
  readonly junctionOut: ComponentLabels | null;
  readonly cable: ComponentLabels | null;
  readonly junctionIn: ComponentLabels | null;
}

/** From the joined spans below a node to the span above it. */
export interface NodeLabels {
  readonly joins: readonly LabelJoin[];
  /** Labels of all spans below, joined. */
  readonly labels: number;
  readonly keep: Moves;
  /** The same where the station shorts the supply. */
  readonly short: Moves;
  /** Whether a stretch ends here, so that what was said about it comes in. */
  readonly closes: boolean;
}

/** The labels of one trunk, point by point. */
export interface LabelPlan {
  readonly spans: readonly SpanLabels[];
  readonly nodes: readonly NodeLabels[];
  readonly port: { readonly joins: readonly LabelJoin[]; readonly weight: Float64Array };
  /** Whether shorts of different branches are told apart in steps only: see `shortSteps`. */
  readonly isInSteps: boolean;
}

/** The priors of a trunk: a place that cannot have a short needs no label. */
export interface LabelledTrunk {
  readonly tree: TrunkTree;
  readonly effects: EffectClasses;
  readonly junctionOut: readonly SpanChances[];
  readonly cable: readonly SpanChances[];
  readonly junctionIn: readonly SpanChances[];
  readonly station: readonly (StationChances | null)[];
}

interface LoopOrder extends LabelledLoop {
  /** As that of ShortOrder. */
  readonly excess: Float64Array;
  /** Null on a trunk in a row. */
  readonly order: ShortOrder | null;
}

/**
 * Which of two shorts on different branches is the nearer is told in steps where there are too many places of one: see `shortSteps`.
 *
 * @throws InvalidLocateRequest when readings overlap beyond the stated limits
 */
export function labelPlan(trunk: LabelledTrunk, readings: TrunkReadings): LabelPlan {
  return new Planner(trunk, readings).plan();
}

class Planner {
  private readonly loops: readonly LoopOrder[];
  private readonly isInSteps: boolean;
  private readonly components: ComponentLabelsMaker;

  constructor(
    private readonly trunk: LabelledTrunk,
    private readonly readings: TrunkReadings,
  ) {
    const { tree } = trunk;
    const { stretches } = readings;
    const canShort = (core: CoreSet) => (n: number, part: number) =>
      canShortHere(trunk, core, n, part);
    const isInRow = [tree.first, ...tree.children].every(({ length }) => length <= 1);
    if (isInRow) {
      this.isInSteps = false;
      this.loops = readings.loops.map(({ core, excessOf }) => {
        return { core, isInRow, excess: shortExcess(tree, canShort(core), excessOf), order: null };
      });
    } else {
      const ranked = readings.loops.map(({ core, excessOf }) => {
        return { core, shorts: rankShorts(tree, canShort(core), excessOf) };
      });
      const steps = shortSteps(
        tree,
        stretches,
        ranked.map(({ shorts }) => shorts),
      );
      this.isInSteps = steps < Infinity;
      this.loops = ranked.map(({ core, shorts }) => {
        const order = shorts.inSteps(steps);
        return { core, isInRow, excess: order.excess, order };
      });
    }
    this.components = new ComponentLabelsMaker(trunk.effects, stretches.length, this.loops);
  }

  plan(): LabelPlan {
    const { tree } = this.trunk;
    const spans = new Array<SpanLabels>(tree.count);
    const nodes = new Array<NodeLabels>(tree.count);
    const spaces = new Array<LabelSpace>(tree.count);
    const below = (list: readonly number[]) => list.flatMap((child) => spaces[child] ?? []);
    for (let n = tree.count - 1; n >= 0; n--) {
      const own = below(tree.children[n] ?? []);
      const { node, space } = this.leaveAsTheyAre(n, own) ?? this.passNode(n, own);
      nodes[n] = node;
      spaces[n] = space;
      spans[n] = this.span(n, space);
    }
    return { spans, nodes, port: this.port(below(tree.first)), isInSteps: this.isInSteps };
  }

  /** Where nothing at a node in a row changes any label: what `node` would find, and the space itself. */
  private leaveAsTheyAre(
    n: number,
    [space, ...others]: readonly LabelSpace[],
  ): { node: NodeLabels; space: LabelSpace } | null {
    const mayShort = this.loops.some(({ core, isInRow }) => !isInRow || core === SUPPLY);
    if (!space || others.length > 0 || mayShort) return null;
    if (this.readings.stretches.some(({ from }) => from === n)) return null;
    const labels = space.labels.length;
    const stay = movesThatStay(labels);
    return { node: { joins: [], labels, keep: stay, short: stay, closes: false }, space };
  }

  /** What else becomes of labels at a node. */
  private passNode(
    n: number,
    below: readonly LabelSpace[],
  ): { node: NodeLabels; space: LabelSpace } {
    const space = new LabelSpace();
    const node = this.node(n, below, space);
    // Past most nodes labels are what they were: the span above shares them, and what is made of them.
    const [alone] = below;
    const isShared = below.length === 1 && alone !== undefined && space.isLike(alone);
    return { node, space: isShared ? alone : space };
  }

  private node(n: number, below: readonly LabelSpace[], space: LabelSpace): NodeLabels {
    const { stretches } = this.readings;
    const { joins, joined } = joinSpaces(stretches.length, this.loops, below);
    const keep = (label: Label) => [this.pastNode(n, label)];
    const short = (label: Label) => this.shorted(n, this.pastNode(n, label));
    const count = joined.labels.length;
    return {
      joins,
      labels: count,
      keep: movesBetween(joined, count, space, keep),
      short: movesBetween(joined, count, space, short),
      closes: stretches.some(({ from }) => from === n),
    };
  }

  /** Fills up `space` with what faults of the span make of the labels at its bottom. */
  private span(n: number, space: LabelSpace): SpanLabels {
    const junctionIn = this.component(n, JUNCTION_IN, space);
    const cable = this.component(n, CABLE, space);
    const junctionOut = this.component(n, JUNCTION_OUT, space);
    return { labels: space.labels.length, junctionIn, cable, junctionOut };
  }

  private port(below: readonly LabelSpace[]): LabelPlan['port'] {
    const { joins, joined } = joinSpaces(this.readings.stretches.length, this.loops, below);
    return {
      joins,
      weight: Float64Array.from(joined.labels, (label) => this.closed(-1, label).weight),
    };
  }

  private component(n: number, part: number, space: LabelSpace): ComponentLabels | null {
    const chances = this.trunk[NAMES[part] ?? 'cable'][n]?.effects;
    return chances ? this.components.of(space, chances, this.labelled(n, part)) : null;
  }

  private labelled(n: number, part: number): LabelledComponent {
    return {
      asked: this.readings.stretches.map(({ spans, cores }) => (spans.has(n) ? cores : 0)),
      loops: this.loops.map(({ core, excess: excesses, order }) => {
        const excess = excesses[n * PARTS + part] ?? 0;
        if (!order) return { core, group: null, excess };
        const rank = order.rank[n * PARTS + part] ?? -1;
        return { core, group: rank < 0 ? 0 : order.groupOf(n, rank), excess };
      }),
    };
  }

  /** What was said about the stretches that end at a node (-1: the port) comes in, and they need no label further up. */
  private closed(n: number, label: Label): LabelOutcome {
    const closing = this.readings.stretches.map(({ from }) => from === n);
    const weight = this.readings.stretches.reduce(
      (product, { likelihood }, b) =>
        closing[b] ? product * likelihood[label[b] === 1 ? 1 : 0] : product,
      1,
    );
    return { label: label.map((value, d) => (closing[d] ? 0 : value)), weight };
  }

  private pastNode(n: number, label: Label): LabelOutcome {
    const closed = this.closed(n, label);
    const groupOf = (loop: number, rank: number) => {
      const of = this.loops[loop];
      return of?.order?.groupOf(n, rank) ?? 0;
    };
    return {
      ...closed,
      label: regroup(this.readings.stretches.length, closed.label, groupOf),
    };
  }

  private shorted(n: number, { label, weight }: LabelOutcome): LabelOutcome[] {
    const loop = this.loops.findIndex(({ core }) => core === SUPPLY);
    if (loop < 0) return [{ label, weight }];
    // Here no short is possible, so nothing goes to any label.
    if (!canShortHere(this.trunk, SUPPLY, n, STATION)) return [];
    const d = this.readings.stretches.length + loop;
    const { group = 0, excess = 0 } = this.labelled(n, STATION).loops[loop] ?? {};
    return valuesAfterShort(label[d] ?? NONE, group, excess).map((next) => ({
      label: label.with(d, next.value),
      weight: weight * next.weight,
    }));
  }
}

const NAMES = ['junctionOut', 'cable', 'junctionIn'] as const;

function canShortHere(trunk: LabelledTrunk, core: CoreSet, n: number, part: number): boolean {
  if (part === STATION) return core === SUPPLY && (trunk.station[n]?.short ?? 0) > 0;
  const chances = trunk[NAMES[part] ?? 'cable'][n];
  return trunk.effects.does.some(
    (effect, e) => effect.shorts === core && (chances?.effects[e] ?? 0) > 0,
  );
}
