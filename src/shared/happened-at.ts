import { type FieldError, InvalidInputError } from './domain-error.js';

/** Clocks of phones run ahead; more than this is a mistake. */
const MINUTES_AHEAD = 10;

/** What is wrong with saying that something was so at an instant: nothing, or that it is still to come. */
export function refuseFuture(field: string, at: Date, now: Date): FieldError[] {
  const isAhead = at.getTime() > now.getTime() + MINUTES_AHEAD * 60_000;
  return isAhead ? [{ field, reason: 'is in the future' }] : [];
}

/** When something is said to have been so; now, where nothing is said of it. */
export function happenedAt(field: string, said: Date | null | undefined, now: Date): Date {
  const at = said ?? now;
  const errors = refuseFuture(field, at, now);
  if (errors.length > 0) throw new InvalidInputError(errors);
  return at;
}
