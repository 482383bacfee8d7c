/** What the reliability figures throw: the field and why. */
export class ReportError extends Error {
  constructor(
    readonly field: string,
    readonly reason: string,
  ) {
    super(`${field}: ${reason}`);
    this.name = 'ReportError';
  }
}

/** Returns `value` if it is a number from `least` to `most`, else throws {@link ReportError}. */
export function requireWithin(field: string, value: number, least: number, most: number): number {
  if (!(value >= least && value <= most) || !Number.isFinite(value)) {
    throw new ReportError(field, `must be a number from ${least} to ${most}, is ${value}`);
  }
  return value;
}
