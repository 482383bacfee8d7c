import { MAX_LABEL_PAIRS, MAX_LABELS } from '../request/limits.js';
import type { TrunkTree } from '../sweep/trunk-tree.js';
import { topsOfRuns } from './short-groups.js';
import { PARTS, type RankedShorts, type ShortOrder } from './short-order.js';
import type { TrunkReadings } from './trunk-readings.js';

/** Up to so many nodes a trunk has its shorts compared one by one wherever the limits allow it. */
const SHORT_TRUNK = 16;
/** On a longer one: of all its spans together, and of two branches together, as many as an answer has time for. */
const MOST_LABELS_EACH = 4;
const MOST_LABELS_BESIDES = 200;
const MOST_PAIRS = 1024;

/** Ranks of all runs together, of which it is tried to compare one by one: with more it is too much anyway. */
const MOST_RANKS_OF_RUNS = 200_000;

/** The first is taken whatever it needs, and others as long as they fit: few steps are soon tried. */
const STEPS = [1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48];

type Stretches = TrunkReadings['stretches'];

/**
 * In how many steps the shorts of different branches are told apart (decision 0166): Infinity where one by one. Each step of
 * each loop is a label, and labels of loops and stretches multiply.
 */
export function shortSteps(
  tree: TrunkTree,
  stretches: Stretches,
  loops: readonly RankedShorts[],
): number {
  const mostRanks = Math.max(0, ...loops.map(({ ranks }) => ranks));
  const fits = (steps: number) =>
    new LabelCount(
      tree,
      stretches,
      loops.map(({ inSteps }) => inSteps(steps)),
    ).fits();
  const runs = new Set(topsOfRuns(tree)).size;
  const mostSteps = MOST_RANKS_OF_RUNS / runs;
  if (mostRanks <= mostSteps && fits(Infinity)) return Infinity;
  let fitting = 1;
  for (const steps of STEPS.slice(1)) {
    if (steps >= mostRanks || !fits(steps)) break;
    fitting = steps;
  }
  return fitting < mostRanks ? fitting : Infinity;
}

/** The groups of shorts of one core that can be the nearest below a point: in all, and those that a reading weighs. */
class Groups {
  private readonly plain = new Set<number>();
  private readonly weighed = new Set<number>();

  add(group: number, isWeighed: boolean): void {
    this.plain.add(group);
    if (isWeighed) this.weighed.add(group);
  }

  addAll({ plain, weighed }: Groups, groupOf: (group: number) => number): void {
    for (const group of plain) this.add(groupOf(group), weighed.has(group));
  }

  /** With that of none. */
  get labels(): number {
    return 1 + this.plain.size + this.weighed.size;
  }
}

const NONE = new Groups();
const asTheyAre = (group: number) => group;

/** Counts the labels of a trunk without making them: no fewer than there are. */
class LabelCount {
  private readonly spans: (readonly Groups[])[];
  private readonly mostPairs: number;
  private readonly mostInAll: number;

  constructor(
    private readonly tree: TrunkTree,
    private readonly stretches: Stretches,
    private readonly orders: readonly ShortOrder[],
  ) {
    this.spans = new Array<readonly Groups[]>(tree.count);
    const isShort = tree.count <= SHORT_TRUNK;
    this.mostPairs = isShort ? MAX_LABEL_PAIRS : MOST_PAIRS;
    this.mostInAll = isShort ? Infinity : MOST_LABELS_EACH * tree.count + MOST_LABELS_BESIDES;
  }

  fits(): boolean {
    const { children, count, first } = this.tree;
    let inAll = 0;
    for (let n = count - 1; n >= 0; n--) {
      const below = children[n] ?? [];
      if (!this.canJoin(below)) return false;
      this.spans[n] = this.orders.map((order, l) => this.groupsAt(order, l, n, below));
      const labels = this.labelsOf(n);
      inAll += labels;
      if (labels > MAX_LABELS || inAll > this.mostInAll) return false;
    }
    return this.canJoin(first);
  }

  private labelsOf(n: number): number {
    const broken = this.stretches.filter(({ spans }) => spans.has(n)).length;
    return product(this.spans[n] ?? []) * 2 ** broken;
  }

  private groupsAt(
    { rank, excess, groupOf }: ShortOrder,
    loop: number,
    n: number,
    below: readonly number[],
  ): Groups {
    const groups = new Groups();
    for (const child of below)
      groups.addAll(this.spans[child]?.[loop] ?? NONE, (group) => groupOf(n, group));
    for (let at = n * PARTS; at < (n + 1) * PARTS; at++) {
      const own = rank[at] ?? -1;
      if (own >= 0) groups.add(groupOf(n, own), (excess[at] ?? 0) > 0);
    }
    return groups;
  }

  /** Branches join one after another. */
  private canJoin([first, ...others]: readonly number[]): boolean {
    if (first === undefined) return true;
    const joined = this.orders.map(() => new Groups());
    const take = (n: number) =>
      this.spans[n]?.forEach((groups, l) => joined[l]?.addAll(groups, asTheyAre));
    take(first);
    let labels = this.labelsOf(first);
    for (const branch of others) {
      if (labels * this.labelsOf(branch) > this.mostPairs) return false;
      take(branch);
      labels = product(joined);
      if (labels > MAX_LABELS) return false;
    }
    return true;
  }
}

const product = (spans: readonly Groups[]) =>
  spans.reduce((labels, groups) => labels * groups.labels, 1);
