/** Settings with which it does not start: which each is, and why. */
export class SettingsError extends Error {
  constructor(
    readonly problems: readonly string[],
    cause?: unknown,
  ) {
    super(problems.join('\n'), { cause });
    this.name = 'SettingsError';
  }
}

export function wrongSetting(name: string, why: string, cause?: unknown): SettingsError {
  return new SettingsError([`${name}: ${why}`], cause);
}
