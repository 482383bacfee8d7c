import { escapePointer } from './json-object.js';

export interface Unkeepable {
  /** JSON pointer of the text; of what holds it, where it is the name of a field. */
  pointer: string;
  reason: string;
}

/** The first text in what was sent that no database can keep: NUL, or half of a character of two halves. */
export function findUnkeepable(value: unknown, pointer = ''): Unkeepable | undefined {
  if (typeof value === 'string') {
    const reason = whyUnkeepable(value);
    return reason === undefined ? undefined : { pointer, reason };
  }
  if (typeof value !== 'object' || value === null) return undefined;
  for (const [key, member] of Object.entries(value)) {
    const reason = whyUnkeepable(key);
    if (reason !== undefined) return { pointer, reason: `has a field whose name ${reason}` };
    const found = findUnkeepable(member, `${pointer}/${escapePointer(key)}`);
    if (found !== undefined) return found;
  }
  return undefined;
}

function whyUnkeepable(text: string): string | undefined {
  if (text.includes('\0')) return 'holds the character NUL, which cannot be kept';
  if (/\p{Surrogate}/u.test(text))
    return 'holds half a character (a lone surrogate), which cannot be kept';
  return undefined;
}
