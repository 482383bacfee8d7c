import { InvalidInputError } from './domain-error.js';

/**
 * A body that has fields; of any other each field would be told to be missing.
 * @throws InvalidInputError with the pointer of the whole
 */
export function asJsonObject(body: unknown): Record<string, unknown> {
  const isObject = typeof body === 'object' && body !== null;
  if (!isObject || Array.isArray(body) || body instanceof Uint8Array) {
    throw new InvalidInputError([{ field: '', reason: 'must be a JSON object' }]);
  }
  return body as Record<string, unknown>;
}

/** A field's name or an index as a part of a JSON pointer (RFC 6901). */
export function escapePointer(token: string): string {
  return token.replaceAll('~', '~0').replaceAll('/', '~1');
}
