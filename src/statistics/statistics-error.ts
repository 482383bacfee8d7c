/** What the reliability figures throw: the field and why. */
export class StatisticsError extends Error {
  constructor(
    readonly field: string,
    readonly reason: string,
  ) {
    super(`${field}: ${reason}`);
    this.name = 'StatisticsError';
  }
}

/** Returns `value` if it is a number from `least` to `most`, else throws {@link StatisticsError}. */
export function requireWithin(field: string, value: number, least: number, most: number): number {
  if (!(value >= least && value <= most) || !Number.isFinite(value)) {
    throw new StatisticsError(field, `must be a number from ${least} to ${most}, is ${value}`);
  }
  return value;
}
