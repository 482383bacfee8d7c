import type { TrunkTree } from '../sweep/trunk-tree.js';

/** Nodes in a row, each but the last feeding the next one and nothing else; the last feeds none, or several. */
export type Unbranched = readonly number[];

/** A trunk cut at its tees, in the order of the nodes. */
export function unbranchedStretches({ children, first }: TrunkTree): Unbranched[] {
  const starts = [...first];
  const found: number[][] = [];
  for (const start of starts) {
    const nodes = [start];
    let below = children[start] ?? [];
    while (below.length === 1) {
      nodes.push(...below);
      below = children[below[0] ?? -1] ?? [];
    }
    starts.push(...below);
    found.push(nodes);
  }
  return found;
}

/** How many runs of one or more nodes leave out the first and the last node of a stretch. */
export function countInnerRuns(stretch: Unbranched): number {
  const inner = Math.max(0, stretch.length - 2);
  return (inner * (inner + 1)) / 2;
}
