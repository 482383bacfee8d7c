import { InvalidInputError, NotFoundError } from '../shared/domain-error.js';

/** Awaits what a field refers to: that it is not there is then wrong input on that field. */
export async function referredTo<T>(field: string, found: Promise<T>): Promise<T> {
  try {
    return await found;
  } catch (error) {
    if (!(error instanceof NotFoundError)) throw error;
    throw new InvalidInputError([{ field, reason: error.message }]);
  }
}
