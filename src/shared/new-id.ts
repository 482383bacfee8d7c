import { uuidv7 } from 'uuidv7';

/** The id that a client brought, or a new one: UUIDv7 (RFC 9562), so that ids sort by age. */
export function idOrNew(id: string | undefined): string {
  return id ?? uuidv7();
}
