import { ln } from '../../elementary/ln.js';
import { zeroTable } from '../numbers/zero-table.js';
/* eslint-disable @typescript-eslint/no-non-null-assertion -- inner loops over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */

/** Chances by view, of which the largest is 1: what they are is views[view] * exp(log). */
export interface ScaledViews {
  readonly views: Float64Array;
  readonly log: number;
}

export function scaledViews(views: Float64Array, log = 0): ScaledViews {
  let most = 0;
  for (let v = 0; v < views.length; v++) most = Math.max(most, views[v]!);
  if (most === 0) return { views, log: -Infinity };
  const scaled = zeroTable(views.length);
  for (let v = 0; v < views.length; v++) scaled[v] = views[v]! / most;
  return { views: scaled, log: log + ln(most) };
}

/** What is seen in two together: the union. */
function join(a: ScaledViews, b: ScaledViews): ScaledViews {
  const joined = zeroTable(a.views.length);
  for (let v = 0; v < joined.length; v++)
    if (a.views[v]! > 0)
      for (let w = 0; w < joined.length; w++) joined[v | w]! += a.views[v]! * b.views[w]!;
  return scaledViews(joined, a.log + b.log);
}

/** What is seen in any number of branches together, and in all but one: linear in the branches, and scaled. */
export class ViewProducts {
  private readonly nothing: ScaledViews;
  /** Of the first j; and from the j-th on, which is not made where there is one branch, as nearly everywhere. */
  private before: ScaledViews[] | null = null;
  private after: ScaledViews[] | null = null;

  /** @param width views that are told apart: 8, or 1 where none passes */
  constructor(
    private readonly branches: readonly ScaledViews[],
    width: number,
  ) {
    const views = zeroTable(width);
    views[0] = 1;
    this.nothing = { views, log: 0 };
  }

  all(): ScaledViews {
    const { branches } = this;
    return branches.length === 1 ? branches[0]! : this.from(0);
  }

  without(j: number): ScaledViews {
    if (this.branches.length === 1) return this.nothing;
    return join(this.until(j), this.from(j + 1));
  }

  private until(j: number): ScaledViews {
    if (!this.before) {
      this.before = [this.nothing];
      for (const branch of this.branches) this.before.push(join(this.before.at(-1)!, branch));
    }
    return this.before[j]!;
  }

  private from(j: number): ScaledViews {
    if (!this.after) {
      const { branches } = this;
      this.after = new Array<ScaledViews>(branches.length + 1).fill(this.nothing);
      for (let k = branches.length - 1; k >= 0; k--)
        this.after[k] = join(branches[k]!, this.after[k + 1]!);
    }
    return this.after[j]!;
  }
}
