/** One thing wrong with what was sent: where (a JSON pointer or a column) and why. */
export interface FieldError {
  /** JSON pointer into the body (RFC 6901), or the name of a query or path parameter. */
  field: string;
  reason: string;
  /** Where in an uploaded sheet, when the input was one. */
  line?: number;
  column?: string;
  value?: string;
}

/** The kinds of failure that the domain knows; the problem filter alone gives each its HTTP status. */
export type DomainErrorKind =
  | 'unauthenticated'
  | 'second-step-required'
  | 'forbidden'
  | 'ended'
  | 'too-many'
  | 'busy'
  | 'not-found'
  | 'invalid-input'
  | 'conflict'
  | 'move-not-allowed'
  | 'stale-version'
  | 'version-required';

export class DomainError extends Error {
  constructor(
    readonly kind: DomainErrorKind,
    message: string,
    /** Further members of the problem document. */
    readonly details: Record<string, unknown> = {},
  ) {
    super(message);
  }
}

export class NotFoundError extends DomainError {
  constructor(what: string, id: string) {
    super('not-found', `There is no ${what} ${id}.`);
  }
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Nobody reads more, and an answer must not be larger than what was sent. */
export const MAX_ERRORS_TOLD = 100;

export class InvalidInputError extends DomainError {
  readonly errors: FieldError[];

  /** `endedEarly`: there may be more, which nobody looked for. `more`: further members of the problem document. */
  constructor(
    all: FieldError[],
    readonly endedEarly = false,
    more: Record<string, unknown> = {},
  ) {
    const number = `${endedEarly ? 'at least ' : ''}${all.length}`;
    const count = all.length === 1 ? `${number} thing is` : `${number} things are`;
    const errors = all.slice(0, MAX_ERRORS_TOLD);
    const told = errors.length < all.length ? ` The first ${MAX_ERRORS_TOLD} are told.` : '';
    super(
      'invalid-input',
      `${capitalised(count)} wrong with what was sent; nothing was saved.${told}`,
      { ...more, errors },
    );
    this.errors = errors;
  }
}

export class ConflictError extends DomainError {
  constructor(message: string, details: Record<string, unknown> = {}) {
    super('conflict', message, details);
  }
}

/** A conflict that is about one field of what was sent: pages say it there. */
export class ConflictAtFieldError extends ConflictError {
  constructor(field: string, message: string, details: Record<string, unknown> = {}) {
    super(message, { ...details, errors: [{ field, reason: message }] });
  }
}

/** A lifecycle's move that its table does not have. */
export class MoveNotAllowedError extends DomainError {
  constructor(what: string, from: string, to: string, allowed: readonly string[]) {
    const next = allowed.length === 0 ? 'nothing' : allowed.join(', ');
    super(
      'move-not-allowed',
      `A ${what} that is "${from}" cannot become "${to}"; it can become: ${next}.`,
      { from, to, allowed },
    );
  }
}

export class StaleVersionError extends DomainError {
  constructor(current: number) {
    super(
      'stale-version',
      `Somebody changed it meanwhile: it is at version ${current} now. Read it again, then send your change.`,
      { currentVersion: current },
    );
  }
}

export class VersionRequiredError extends DomainError {
  constructor() {
    super(
      'version-required',
      'Say which version you change: send its ETag in the header If-Match.',
    );
  }
}

/** Nobody knows who asks. Says nothing about why: a wrong secret and an ended one look alike. */
export class UnauthenticatedError extends DomainError {
  constructor(message = 'Sign in first, or send a token.') {
    super('unauthenticated', message);
  }
}

export class ForbiddenError extends DomainError {
  constructor(message: string) {
    super('forbidden', message);
  }
}

/** It was there and was ended on purpose; whoever comes with it has done nothing wrong. */
export class EndedError extends DomainError {
  constructor(message: string) {
    super('ended', message);
  }
}

/** A limit that was gone beyond, where there is a fixed one. */
interface LimitBroken {
  name: string;
  limit: number;
  windowSeconds: number;
}

/** Too often in a short time; the details say the limit, and in how many seconds to try again. */
export class TooManyError extends DomainError {
  constructor(
    readonly retryAfterSeconds: number,
    readonly broken?: LimitBroken,
  ) {
    const limit = broken && { limit: broken.limit, windowSeconds: broken.windowSeconds };
    const atMost = limit ? `at most ${limit.limit} in ${limit.windowSeconds} seconds; ` : '';
    super('too-many', `That was too often: ${atMost}try again in ${retryAfterSeconds} seconds.`, {
      retryAfterSeconds,
      ...limit,
    });
  }
}

/** There is more to work out than can be just now, or it takes too long; nothing was wrong with the request. */
export class BusyError extends DomainError {
  constructor(readonly retryAfterSeconds: number) {
    super(
      'busy',
      `There is too much to work out just now; try again in ${retryAfterSeconds} seconds.`,
      {
        retryAfterSeconds,
      },
    );
  }
}

/** The password was right; a code must come with it. */
export class SecondStepRequiredError extends DomainError {
  constructor() {
    super('second-step-required', 'Send the code of the second step along.');
  }
}
