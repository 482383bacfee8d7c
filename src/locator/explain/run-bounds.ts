/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { ALL_CORES } from '../../plan/cores.js';
import { VIEW_COUNT, WEAK_FEED } from './run-effects.js';
import { ACT_COUNT, OPEN, PARTED, SHORT, WEAKENED } from './series-acts.js';
import { zeroTable } from '../numbers/zero-table.js';

const CORE_SETS = ALL_CORES + 1;

/** Sets of bits with the product of the chances of their bits. */
function products(chances: ArrayLike<number>): Float64Array {
  const sets = zeroTable(1 << chances.length).fill(1);
  for (let set = 1; set < sets.length; set++) {
    const bit = 31 - Math.clz32(set);
    sets[set] = sets[set & ~(1 << bit)]! * chances[bit]!;
  }
  return sets;
}

/**
 * What components in series can do at the most, from sums over them alone. That all of several things happen, each in
 * a component of its own, has at most the product of the chances that each happens anywhere; but parted cores are lost
 * together.
 */
export class RunBounds {
  /** log P(cores lost) at most; from CORE_SETS on where no others are left. And that it gets weak. */
  private readonly logLost: Float64Array;
  private readonly logWeak: number;
  /** P(shorts seen) at most, by the set of views that they add. */
  readonly shorts: Float64Array;

  /** @param acts as seriesActs gives them */
  constructor(acts: Float64Array) {
    const sums = zeroTable(ACT_COUNT);
    for (let i = 0; i < acts.length; i++) sums[i % ACT_COUNT]! += acts[i]!;
    const parted = sums[PARTED]!;
    this.shorts = products(sums.subarray(SHORT, WEAKENED));
    const lost = products(sums.subarray(OPEN, SHORT));
    this.logLost = zeroTable(2 * CORE_SETS);
    this.logWeak = ln(sums[WEAKENED]!);
    for (let set = 0; set < CORE_SETS; set++) {
      this.logLost[set] = ln(lost[set]!);
      this.logLost[CORE_SETS + set] = set > 0 ? ln(lost[set]! + parted) : 0;
    }
  }

  /** log P(feed below | feed above) at most. */
  lost(above: number, below: number): number {
    const lost = above & ~below & ALL_CORES;
    const isEmpty = (below & ALL_CORES) === 0;
    const isWeakened = (below & ~above & WEAK_FEED) !== 0;
    return this.logLost[lost + (isEmpty ? CORE_SETS : 0)]! + (isWeakened ? this.logWeak : 0);
  }

  /** Sum over views above of weights * P(view above | view below) at most. */
  seen(weights: Float64Array, from: number, below: number): number {
    let sum = 0;
    for (let view = 0; view < VIEW_COUNT; view++)
      sum += weights[from + view]! * this.shorts[view & ~below]!;
    return sum;
  }
}
