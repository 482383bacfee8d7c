/** How much a JSON text may hold; beyond that it is not even parsed. */
export interface JsonBounds {
  /** Objects and arrays within each other. */
  depth: number;
  /** Fields of any one object. */
  fieldsOfOne: number;
  /** Elements of any one array. */
  elementsOfOne: number;
  /** Fields and elements, all together. */
  values: number;
}

const QUOTE = 0x22;
const COMMA = 0x2c;
const OPEN_ARRAY = 0x5b;
const BACKSLASH = 0x5c;
const CLOSE_ARRAY = 0x5d;
const OPEN_OBJECT = 0x7b;
const CLOSE_OBJECT = 0x7d;

/**
 * Which bound a JSON text in UTF-8 goes beyond, in words; undefined where it goes beyond none. One pass over the bytes
 * that builds nothing and ends at the bound. A text that is no JSON it does not tell from one that is.
 */
export function findExcess(utf8: Uint8Array, bounds: JsonBounds): string | undefined {
  const isArray: boolean[] = [];
  const members: number[] = [];
  let values = 0;
  for (let at = 0; at < utf8.length; at++) {
    const byte = utf8[at];
    if (byte === QUOTE) {
      at = endOfText(utf8, at);
    } else if (byte === OPEN_ARRAY || byte === OPEN_OBJECT) {
      if (members.length === bounds.depth) return `is nested more than ${bounds.depth} levels deep`;
      isArray.push(byte === OPEN_ARRAY);
      members.push(1);
      values++;
    } else if (byte === CLOSE_ARRAY || byte === CLOSE_OBJECT) {
      isArray.pop();
      members.pop();
    } else if (byte === COMMA) {
      const count = (members.pop() ?? 0) + 1;
      members.push(count);
      values++;
      const reason = excessOf(count, isArray.at(-1) ?? true, bounds);
      if (reason !== undefined) return reason;
    }
    if (values > bounds.values) return `has more than ${bounds.values} fields and elements`;
  }
  return undefined;
}

function excessOf(count: number, isArray: boolean, bounds: JsonBounds): string | undefined {
  const { elementsOfOne, fieldsOfOne } = bounds;
  if (isArray && count > elementsOfOne) return `has a list of more than ${elementsOfOne} elements`;
  if (!isArray && count > fieldsOfOne) return `has an object of more than ${fieldsOfOne} fields`;
  return undefined;
}

/** Where the text that begins at a quote ends: its other quote, or the end of all. */
function endOfText(utf8: Uint8Array, quote: number): number {
  let at = quote + 1;
  while (at < utf8.length && utf8[at] !== QUOTE) at += utf8[at] === BACKSLASH ? 2 : 1;
  return at;
}
