/** Shorter tables lie beside their object in V8's own heap, and are cheap. */
const SHORTEST = 9;
/** Longer ones have memory of their own. */
const LONGEST = 1024;
const CHUNK = 8192;

let chunk = new Float64Array(CHUNK);
let taken = 0;

/**
 * A table of zeros. Memory outside V8's heap costs 0.3 to 0.8 µs to get (Node 20.20, 9 to 128 numbers), and its part in each
 * collection of garbage; so short tables are parts of a longer one, that goes when the last of them does. Not for what is kept from one
 * request to the next, nor for what is sent to another thread: its whole chunk would go along.
 */
export function zeroTable(length: number): Float64Array {
  if (length < SHORTEST || length > LONGEST) return new Float64Array(length);
  if (taken + length > CHUNK) {
    chunk = new Float64Array(CHUNK);
    taken = 0;
  }
  const from = taken;
  taken += length;
  return chunk.subarray(from, taken);
}

/** The first `length` numbers of a table, in one of their own; as zeroTable, and likewise not for what is kept. */
export function copyOf(table: Float64Array, length: number): Float64Array {
  const copy = zeroTable(length);
  for (let i = 0; i < length; i++) copy[i] = table[i] ?? 0;
  return copy;
}

/** Memory that is used again: what is in it stands there until somebody asks for it the next time. */
export class ReusedTable {
  private table = new Float64Array(64);

  /** Of at least that length; what is in it is left from before, or 0 where it was never used. */
  of(length: number): Float64Array {
    if (this.table.length < length) this.table = new Float64Array(2 * length);
    return this.table;
  }
}
