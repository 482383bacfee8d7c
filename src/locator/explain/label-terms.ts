/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import type { LabelJoin } from '../readings/label-joins.js';
import type { Moves } from '../readings/label-space.js';

/** What a run makes of labels: those that can be above with those that can be below. */
export interface LabelPair {
  readonly above: number;
  readonly below: number;
}

/**
 * One product that is summed over at an informative node: its label towards the span above it, and for each run below which of the
 * run's pairs of labels.
 */
export interface LabelTerm {
  readonly out: number;
  /** Of the runs below together. */
  readonly label: number;
  readonly pairs: readonly number[];
  /** Factor where the station leaves the supply as it is, and where it shorts it. */
  readonly keep: number;
  readonly short: number;
}

export const ONE_PAIR: readonly LabelPair[] = [{ above: 0, below: 0 }];

/** So many terms at one informative node are looked at. */
export const MOST_TERMS = 4096;

/** How the labels at the tops of the runs join and go on up. */
export interface TermPlan {
  readonly joins: readonly LabelJoin[];
  readonly keep: Moves;
  readonly short: Moves;
}

/** All terms of an informative node, from the pairs of each run below in the order of the tree; null where they are too many. */
export function labelTerms(
  runs: readonly (readonly LabelPair[])[],
  { joins, keep, short }: TermPlan,
): LabelTerm[] | null {
  let joined: Joined[] = (runs[0] ?? []).map(({ above }, p) => ({
    pairs: [p],
    label: above,
    weight: 1,
  }));
  if (runs.length === 0) joined = [{ pairs: [], label: 0, weight: 1 }];
  for (const [j, pairs] of runs.slice(1).entries()) {
    const more = withBranch(joined, joins[j]!, pairs);
    if (!more) return null;
    joined = more;
  }
  const known = new Map<number, Out[]>();
  const terms = joined.flatMap(({ pairs, label, weight }): LabelTerm[] => {
    const outs = known.get(label) ?? outsOf(label, keep, short);
    known.set(label, outs);
    return outs.map((factors) => {
      return {
        out: factors.out,
        label,
        pairs,
        keep: weight * factors.keep,
        short: weight * factors.short,
      };
    });
  });
  return terms.length > MOST_TERMS ? null : terms;
}

type Out = Pick<LabelTerm, 'out' | 'keep' | 'short'>;

/** What a label of the runs below becomes on the way past the node. */
function outsOf(label: number, keep: Moves, short: Moves): Out[] {
  const outs: { out: number; keep: number; short: number }[] = [];
  const add = ({ from, to, weight }: Moves, way: 'keep' | 'short') => {
    for (let m = 0; m < weight.length; m++) {
      if (from[m] !== label) continue;
      let own = outs.find(({ out }) => out === to[m]);
      if (!own) outs.push((own = { out: to[m]!, keep: 0, short: 0 }));
      own[way] += weight[m]!;
    }
  };
  add(keep, 'keep');
  add(short, 'short');
  return outs;
}

/** Pairs of some runs, and the label that they make together. */
interface Joined {
  readonly pairs: readonly number[];
  readonly label: number;
  readonly weight: number;
}

/** Of each product of two labels that there is, all the pairs that make it; null where they are too many. */
function withBranch(
  before: readonly Joined[],
  { pairs: products }: LabelJoin,
  pairs: readonly LabelPair[],
): Joined[] | null {
  const byLabel = listsBy(before, ({ label }) => label);
  const byAbove = listsBy([...pairs.keys()], (p) => pairs[p]!.above);
  const joined: Joined[] = [];
  for (const { left, right, out, weight } of products.values())
    for (let i = 0; i < out.length; i++) {
      const lefts = byLabel.get(left[i]!) ?? [];
      const rights = byAbove.get(right[i]!) ?? [];
      if (joined.length + lefts.length * rights.length > MOST_TERMS) return null;
      for (const one of lefts)
        for (const p of rights)
          joined.push({
            pairs: [...one.pairs, p],
            label: out[i]!,
            weight: one.weight * weight[i]!,
          });
    }
  return joined;
}

function listsBy<T>(all: readonly T[], keyOf: (one: T) => number): Map<number, T[]> {
  const lists = new Map<number, T[]>();
  for (const one of all) {
    const list = lists.get(keyOf(one)) ?? [];
    list.push(one);
    lists.set(keyOf(one), list);
  }
  return lists;
}
