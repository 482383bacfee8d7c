export type BuiltInServerProblem =
  'no-binary' | 'no-account' | 'not-writable' | 'other-major' | 'did-not-start' | 'did-not-stop';

/** Why the built-in server cannot be used; `message` says what the operator can do about it. */
export class BuiltInServerError extends Error {
  constructor(
    readonly reason: BuiltInServerProblem,
    message: string,
  ) {
    super(message);
    this.name = 'BuiltInServerError';
  }
}

/** The operating system's error code (`ENOENT`, …), or undefined where there is none. */
export function errorCode(error: unknown): string | undefined {
  // Not `instanceof Error`: under a test runner the system's errors come from another realm.
  const hasCode = typeof error === 'object' && error !== null && 'code' in error;
  return hasCode ? String(error.code) : undefined;
}
