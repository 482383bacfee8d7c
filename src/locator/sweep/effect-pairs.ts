/**
 * The pairs (state above, state below) that the effects of a component allow, each once: effects that lead from one
 * state to one other are weighed together, so that a component is one sparse matrix.
 */
export interface EffectPairs {
  readonly count: number;
  /** Pairs by state above: those of state a are from rowStart[a] up to rowStart[a + 1], with the states below. */
  readonly rowStart: Uint16Array;
  readonly rowBelow: Uint8Array;
  /** The same pairs by state below: their states above, and which pair each is. */
  readonly columnStart: Uint16Array;
  readonly columnAbove: Uint8Array;
  readonly columnPair: Uint16Array;
  /** The pair of each (effect, state above, state below). */
  readonly ofEntry: Uint16Array;
}

function starts(sorted: readonly number[], states: number): Uint16Array {
  return Uint16Array.from({ length: states + 1 }, (_, s) => sorted.filter((of) => of < s).length);
}

/** @param above, below by entry: the states that an effect leads from and to, entries of several effects together */
export function effectPairs(
  above: ArrayLike<number>,
  below: ArrayLike<number>,
  states: number,
): EffectPairs {
  const codes = Array.from(above, (a, i) => a * states + (below[i] ?? 0));
  const distinct = [...new Set(codes)].sort((x, y) => x - y);
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
    rowStart: starts(aboveOf, states),
    rowBelow: Uint8Array.from(pairs, (pair) => pair.below),
    columnStart: starts(belowOf, states),
    columnAbove: Uint8Array.from(columns, (pair) => pair.above),
    columnPair: Uint16Array.from(columns, ({ pair }) => pair),
    ofEntry: Uint16Array.from(codes, (code) => distinct.indexOf(code)),
  };
}
