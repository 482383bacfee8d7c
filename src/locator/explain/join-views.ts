/* eslint-disable @typescript-eslint/no-non-null-assertion -- loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { VIEW_COUNT } from './run-effects.js';
import { zeroTable } from '../numbers/zero-table.js';

/** P(view) where nothing is below. */
export const NOTHING_SEEN = Float64Array.from({ length: VIEW_COUNT }, (_, view) =>
  view === 0 ? 1 : 0,
);

/** P(view) of several branches together: the union of what is seen in each. */
export function joinViews(branches: readonly Float64Array[]): Float64Array {
  const [first, ...others] = branches;
  let joined: Float64Array = first ?? NOTHING_SEEN;
  for (const branch of others) {
    const next = zeroTable(VIEW_COUNT);
    for (let a = 0; a < VIEW_COUNT; a++)
      if (joined[a]! > 0)
        for (let b = 0; b < VIEW_COUNT; b++) next[a | b]! += joined[a]! * branch[b]!;
    joined = next;
  }
  return joined;
}
