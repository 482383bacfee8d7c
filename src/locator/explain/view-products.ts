import { ln } from '../../elementary/ln.js';
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
  return { views: views.map((chance) => chance / most), log: log + ln(most) };
}

/** What is seen in two together: the union. */
function join(a: ScaledViews, b: ScaledViews): ScaledViews {
  const joined = new Float64Array(a.views.length);
  for (let v = 0; v < joined.length; v++)
    if (a.views[v]! > 0)
      for (let w = 0; w < joined.length; w++) joined[v | w]! += a.views[v]! * b.views[w]!;
  return scaledViews(joined, a.log + b.log);
}

/** What is seen in any number of branches together, and in all but one: linear in the branches, and scaled. */
export class ViewProducts {
  /** Of the first j, and from the j-th on. */
  private readonly before: ScaledViews[];
  private readonly after: ScaledViews[] = [];

  /** @param width views that are told apart: 8, or 1 where none passes */
  constructor(branches: readonly ScaledViews[], width: number) {
    const nothing = Float64Array.from({ length: width }, (_, view) => (view === 0 ? 1 : 0));
    this.before = [{ views: nothing, log: 0 }];
    for (const branch of branches) this.before.push(join(this.before.at(-1)!, branch));
    this.after[branches.length] = { views: nothing, log: 0 };
    for (let j = branches.length - 1; j >= 0; j--)
      this.after[j] = join(branches[j]!, this.after[j + 1]!);
  }

  all(): ScaledViews {
    return this.after[0]!;
  }

  without(j: number): ScaledViews {
    return join(this.before[j]!, this.after[j + 1]!);
  }
}
