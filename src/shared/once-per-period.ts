/** Lets one of many alike through in each period, and counts the others. */
export class OncePerPeriod {
  private until = -Infinity;
  private heldBack = 0;

  constructor(private readonly periodMs: number) {}

  /** How many were held back since the last one that was let through; undefined: this one is held back too. */
  note(now: Date): number | undefined {
    if (now.getTime() < this.until) {
      this.heldBack++;
      return undefined;
    }
    const since = this.heldBack;
    this.heldBack = 0;
    this.until = now.getTime() + this.periodMs;
    return since;
  }
}
