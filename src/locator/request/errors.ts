/** One thing wrong with a request: where, as a JSON pointer (RFC 6901), and why. */
export interface RequestError {
  readonly pointer: string;
  readonly reason: string;
}

/** The request cannot be computed as it stands; every error found is listed. */
export class InvalidLocateRequest extends Error {
  override readonly name = 'InvalidLocateRequest';
  constructor(readonly errors: readonly RequestError[]) {
    super(errors.map((error) => `${error.pointer || '(whole)'}: ${error.reason}`).join('; '));
  }
}

/**
 * The evidence has probability 0 under the model, which takes certainty somewhere: an error rate of 0, or a report rate
 * of 1 with something that is certainly broken. `errors` names observations that cannot all be true: leaving out any
 * one of them makes the rest possible.
 */
export class ImpossibleEvidence extends Error {
  override readonly name = 'ImpossibleEvidence';
  constructor(readonly errors: readonly RequestError[]) {
    super(`evidence of probability 0: ${errors.map((error) => error.pointer).join(', ')}`);
  }
}
