import { InvalidInputError } from './domain-error.js';

/** One page of a list; `next` is null on the last one. */
export interface Page<T> {
  items: T[];
  next: string | null;
}

/**
 * Cuts a page from rows of which one more than the limit was read, and makes the cursor of the next
 * from the last row's sort key.
 */
export function toPage<Row, T>(
  rows: Row[],
  limit: number,
  sortKey: (row: Row) => string[],
  toItem: (row: Row) => T,
): Page<T> {
  const shown = rows.slice(0, limit);
  const last = shown.at(-1);
  const next = rows.length > limit && last !== undefined ? encodeCursor(sortKey(last)) : null;
  return { items: shown.map(toItem), next };
}

export function encodeCursor(sortKey: string[]): string {
  return Buffer.from(JSON.stringify(sortKey)).toString('base64url');
}

/** The sort key in a cursor; a cursor that was not made here is an input error on `after`. */
export function decodeCursor(cursor: string | undefined, parts: number): string[] | undefined {
  if (cursor === undefined) return undefined;
  try {
    const key: unknown = JSON.parse(Buffer.from(cursor, 'base64url').toString());
    if (
      Array.isArray(key) &&
      key.length === parts &&
      key.every((part) => typeof part === 'string')
    ) {
      return key;
    }
  } catch {
    // Falls through: anything unreadable is the same error.
  }
  throw new InvalidInputError([{ field: 'after', reason: 'is not a cursor that was given here' }]);
}
