/** Pairs by state above: those of state a are from rowStart[a] up to rowStart[a + 1], with the states below. */
export interface RowPairs {
  readonly states: number;
  readonly rowStart: Uint32Array;
  readonly rowBelow: Uint32Array;
}

/** The same pairs by state below: their states above, and which pair each is. */
export interface ColumnPairs {
  readonly states: number;
  readonly columnStart: Uint32Array;
  readonly columnAbove: Uint32Array;
  readonly columnPair: Uint32Array;
  /** Room for a number of each pair, for whoever needs it at the moment. */
  readonly scratch: Float64Array;
}

/**
 * The pairs (state above, state below) that the effects of a component allow, each once: effects that lead from one
 * state to one other are weighed together, so that a component is one sparse matrix.
 */
export interface EffectPairs extends RowPairs, ColumnPairs {
  readonly count: number;
  /** The pair of each (effect, state above, state below). */
  readonly ofEntry: Uint32Array;
}

/** @param sorted ascending numbers below `states`: where those of each begin, and the end of the last */
function starts(sorted: readonly number[], states: number): Uint32Array {
  const found = new Uint32Array(states + 1);
  for (const of of sorted) found[of + 1] = (found[of + 1] ?? 0) + 1;
  for (let s = 0; s < states; s++) found[s + 1] = (found[s + 1] ?? 0) + (found[s] ?? 0);
  return found;
}

/** @param above, below by entry: the states that an effect leads from and to, entries of several effects together */
export function effectPairs(
  above: ArrayLike<number>,
  below: ArrayLike<number>,
  states: number,
): EffectPairs {
  const codes = Array.from(above, (a, i) => a * states + (below[i] ?? 0));
  const distinct = [...new Set(codes)].sort((x, y) => x - y);
  const pairOf = new Map(distinct.map((code, pair) => [code, pair]));
  const pairs = distinct.map((code, pair) => ({
    pair,
    above: Math.floor(code / states),
    below: code % states,
  }));
  const columns = [...pairs].sort((x, y) => x.below - y.below || x.pair - y.pair);
  const aboveOf = pairs.map((pair) => pair.above);
  const belowOf = columns.map((pair) => pair.below);
  return {
    count: pairs.length,
    states,
    rowStart: starts(aboveOf, states),
    rowBelow: Uint32Array.from(pairs, (pair) => pair.below),
    columnStart: starts(belowOf, states),
    columnAbove: Uint32Array.from(columns, (pair) => pair.above),
    columnPair: Uint32Array.from(columns, ({ pair }) => pair),
    ofEntry: Uint32Array.from(codes, (code) => pairOf.get(code) ?? 0),
    scratch: new Float64Array(pairs.length),
  };
}
