/** More work than an answer may take: what was found until then is what there is. */
export class WorkSpent extends Error {}

/**
 * What the explanations of one answer may cost, counted in entries of tables that are looked at and not by a clock, so that
 * the same request always gives the same answer.
 */
export class WorkLeft {
  constructor(private left: number) {}

  /** @throws WorkSpent */
  spend(entries: number): void {
    this.left -= entries;
    if (this.left < 0) throw new WorkSpent();
  }
}
