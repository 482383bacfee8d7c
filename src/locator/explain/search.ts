/* eslint-disable @typescript-eslint/no-non-null-assertion -- an inner loop over a list: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */
import { ln } from '../../elementary/ln.js';
import { Expander, type Fan, type EdgeWay } from './expand.js';
import { Heap, type Ranked } from '../numbers/heap.js';
import type { Field, Partial } from './partial.js';
import type { Stage } from './stages.js';
import { type WorkLeft, WorkSpent } from './work.js';

/** An explanation: its states are found along `whole`, from the last chosen to the first. */
export interface FoundAssignment {
  /** log P(explanation, evidence), after κ. */
  readonly log: number;
  /** 0 for ok, then as the site's HeadEndGroups.modes. */
  readonly headEnd: number;
  readonly whole: Partial;
}

/** Explanations this near (as logarithms) count as equally probable. */
export const TIE = 1e-10;

/** So many equals of the last one are looked at, so that which of them are named goes by ids; of many states fewer. */
const MOST_EQUALS = 1000;
const MOST_STATES_FOUND = 500_000;

/** Explanations by their probability after κ, the most probable first; so many are kept. */
class Ranking {
  readonly list: FoundAssignment[] = [];
  constructor(private readonly most: number) {}

  add(one: FoundAssignment): void {
    const { list } = this;
    let at = list.length;
    while (at > 0 && list[at - 1]!.log < one.log) at--;
    list.splice(at, 0, one);
    if (list.length > this.most) list.pop();
  }

  /** Whether none of those that are left belongs among the first `count`, or all that do equal the last of these. */
  isSettled(count: number, logLeft: number): boolean {
    const last = this.list[count - 1];
    if (!last || logLeft > last.log + 2 * TIE) return false;
    const equal = this.list[this.most - 1];
    return logLeft < last.log - 2 * TIE || (equal?.log ?? -Infinity) >= last.log - 2 * TIE;
  }
}

/** Explanations found, and whether the work was enough to find all that were looked for. */
export interface SearchResult {
  readonly found: readonly FoundAssignment[];
  readonly isWhole: boolean;
}

interface Next extends Ranked {
  readonly log: number;
  readonly partial: Partial;
  /** Null where what is next is a mode of the head-end, of a whole explanation. */
  readonly fan: Fan | null;
  readonly index: number;
}

function onlyWay(fan: Fan | null): EdgeWay | null {
  return fan?.ways.length === 1 ? (fan.ways[0] ?? null) : null;
}

class Search {
  private readonly heap = new Heap<Next>();
  private readonly expander: Expander;
  private order = 0;
  private readonly ranking: Ranking;

  constructor(
    stages: readonly Stage[],
    private readonly logLeast: number,
    most: number,
    private readonly work: WorkLeft,
    private readonly leftOf: LeftOf,
  ) {
    this.ranking = new Ranking(most);
    this.expander = new Expander(stages, work);
  }

  get found(): readonly FoundAssignment[] {
    return this.ranking.list;
  }

  start(field: Field, logPrior: number): void {
    this.expand(this.expander.first(field, logPrior), 0);
  }

  /**
   * Takes the best first until there are `count` of at least `logLeast`, and what equals the last of these. Gives whether
   * the work was enough.
   */
  run(start: () => void, count: number): boolean {
    try {
      start();
      this.takeAll(count);
      return true;
    } catch (error) {
      if (error instanceof WorkSpent) return false;
      throw error;
    }
  }

  private takeAll(count: number): void {
    for (let next = this.heap.pop(); next; next = this.heap.pop()) {
      if (this.ranking.isSettled(count, next.log)) return;
      this.push(next.partial, next.fan, next.index + 1, next.depth);
      if (next.fan) {
        const way = next.fan.ways[next.index];
        if (way) this.expand(this.expander.take(next.partial, way), next.depth + 1);
      } else {
        const { mode } = next.partial.field.modes[next.index] ?? { mode: 0 };
        const log = next.log + ln(this.leftOf(next.partial));
        this.ranking.add({ log, headEnd: mode, whole: next.partial });
      }
    }
  }

  /** Where there is one way to go on, as nearly everywhere far from the fault, nothing has to wait for it. */
  private expand(from: Partial, depth: number): void {
    let partial = from;
    let fan = this.fanOf(partial);
    for (let only = onlyWay(fan); only; only = onlyWay(fan)) {
      partial = this.expander.take(partial, only);
      fan = this.fanOf(partial);
    }
    this.push(partial, fan, 0, depth);
  }

  private fanOf(partial: Partial): Fan | null {
    return this.expander.isWhole(partial) ? null : this.expander.fan(partial);
  }

  private push(partial: Partial, fan: Fan | null, index: number, depth: number): void {
    const offset = fan ? fan.offset : (partial.logs[0] ?? -Infinity);
    const way = (fan ? fan.ways : partial.field.modes)[index];
    const log = offset + (way?.log ?? -Infinity);
    if (log === -Infinity || log < this.logLeast) return;
    this.work.spend(1);
    // Equals but for rounding are equals: else all of them are looked at from the top before one is whole.
    const rank = Math.round(log / TIE);
    this.heap.push({ log, rank, depth, order: this.order++, partial, fan, index });
  }
}

/** What κ leaves of the mass of a whole explanation. */
export type LeftOf = (whole: Partial) => number;

/**
 * Best-first search with bounds that no completion exceeds: explanations come out in the order of their mass before κ, until
 * none that is left can have more than the last of `count` has after it (fault model, section 5). All of a mass of at least
 * exp(logLeast) are looked at, up to `count` and those that equal the last.
 */
export function search(
  stages: readonly Stage[],
  fields: readonly { field: Field; logPrior: number }[],
  count: number,
  logLeast: number,
  work: WorkLeft,
  leftOf: LeftOf,
): SearchResult {
  const equals = Math.min(MOST_EQUALS, Math.ceil(MOST_STATES_FOUND / stages.length));
  const running = new Search(stages, logLeast, count + equals, work, leftOf);
  const start = () => {
    for (const { field, logPrior } of fields) running.start(field, logPrior);
  };
  const isWhole = running.run(start, count);
  return { found: running.found, isWhole };
}
