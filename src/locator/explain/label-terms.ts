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
  let joined: { pairs: number[]; label: number }[] = [{ pairs: [], label: 0 }];
  for (const [j, pairs] of runs.entries()) {
    joined = joined.flatMap((before) =>
      pairs.flatMap(({ above }, p) => {
        const label = j === 0 ? above : joinedLabel(joins[j - 1]!, before.label, above);
        return label === undefined ? [] : [{ pairs: [...before.pairs, p], label }];
      }),
    );
    if (joined.length > MOST_TERMS) return null;
  }
  const known = new Map<number, Out[]>();
  const terms = joined.flatMap(({ pairs, label }): LabelTerm[] => {
    const outs = known.get(label) ?? outsOf(label, keep, short);
    known.set(label, outs);
    return outs.map((factors) => {
      return { out: factors.out, label, pairs, keep: factors.keep, short: factors.short };
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

function joinedLabel({ pairs }: LabelJoin, a: number, b: number): number | undefined {
  for (const { left, right, out } of pairs.values())
    for (let p = 0; p < out.length; p++) if (left[p] === a && right[p] === b) return out[p];
  return undefined;
}
