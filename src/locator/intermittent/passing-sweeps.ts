import type { FunctionSet } from '../../plan/functions.js';
import type { HeadEndGroups } from '../sweep/head-end-groups.js';
import type { Statement, StatementsOfOne } from '../sweep/statements.js';
import { sweepUpAgain, type SweptAgain, type UpwardSweep } from '../sweep/sweep-trunk.js';
import { trunkLikelihood, type TrunkModel } from '../sweep/trunk-model.js';

/** What comes and goes, as one trunk feels it while it is there. */
export interface Felt {
  /** Whether it changes what may be told of a function at a node. */
  readonly touches: (node: number, func: number) => boolean;
  /** The class of feed, by the one that arrives when it is not there. */
  readonly feed: (arrives: number) => number;
  /** Functions that it disables, by zone. */
  readonly disables: (zone: number) => FunctionSet;
}

/** Of what disables functions and leaves the feed as it is. */
export function silencing({ zone }: TrunkModel, disables: Felt['disables']): Felt {
  return {
    touches: (node, func) => (disables(zone[node] ?? 0) & (1 << func)) !== 0,
    feed: (arrives) => arrives,
    disables,
  };
}

/** Sittings in which something was told that it changes, ascending. */
export function sittingsTouched({ statements }: TrunkModel, { touches }: Felt): number[] {
  const found = new Set<number>();
  statements.forEach((heard, n) => {
    for (const { items } of heard)
      for (const { func, sitting } of items) if (touches(n, func)) found.add(sitting);
  });
  return [...found].sort((a, b) => a - b);
}

/** Whether something is told at a node for certain that cannot be so while these functions are disabled. */
function isRuledOut(
  heard: readonly StatementsOfOne[],
  disabled: FunctionSet,
  sittings: ReadonlySet<number>,
): boolean {
  const isAgainst = ({ func, sitting, likelihood: [, , ifDead] }: Statement) =>
    ifDead === 0 && sittings.has(sitting) && (disabled & (1 << func)) !== 0;
  return heard.some(
    ({ items, confused, flag }) => confused === 0 && flag < 0 && items.some(isAgainst),
  );
}

/** One trunk swept up again with one thing after the other that comes and goes, each time in the same tables. */
export class PassingSweeps {
  private spare: SweptAgain | undefined;

  constructor(
    private readonly before: UpwardSweep,
    private readonly headEnd: HeadEndGroups,
  ) {}

  /**
   * As if it were there in these sittings. What it does not change stays as it was swept.
   *
   * @returns a sweep that holds until the next one is asked for
   */
  sweep({ touches, feed, disables }: Felt, sittings: ReadonlySet<number>): UpwardSweep {
    if (sittings.size === 0) return this.before;
    const { model } = this.before;
    const isChangedAt = (n: number) => (item: Statement) =>
      sittings.has(item.sitting) && touches(n, item.func);
    const changed = model.statements.map((heard, n) =>
      heard.some(({ items }) => items.some(isChangedAt(n))) ? heard : [],
    );
    const passing = trunkLikelihood({ ...model, statements: changed }, this.headEnd, {
      felt: (sitting, arrives) => (sittings.has(sitting) ? feed(arrives) : arrives),
      silenced: (zone) => (sitting) => (sittings.has(sitting) ? disables(zone) : 0),
    });
    const likelihood = model.likelihood.map((known, n) => passing[n] ?? known);
    const again = sweepUpAgain(this.before, { ...model, likelihood }, this.spare);
    this.spare = again;
    return again;
  }

  /** Natural logarithm of the evidence of the trunk then, as PortJoin has it. */
  logEvidence(felt: Felt, sittings: ReadonlySet<number>): Float64Array {
    const { model, port } = this.before;
    const isImpossible = model.statements.some((heard, n) =>
      isRuledOut(heard, felt.disables(model.zone[n] ?? 0), sittings),
    );
    if (isImpossible) return port.logEvidence.map(() => -Infinity);
    return this.sweep(felt, sittings).port.logEvidence;
  }
}
