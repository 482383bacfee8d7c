import { zeroTable } from '../numbers/zero-table.js';
/* eslint-disable @typescript-eslint/no-non-null-assertion -- a loop over fixed tables: every index is in range by
   construction, and a fallback value at each read would hide a wrong one */

/** The largest of many numbers, with the keys that they came with, and the sum of all that are not among them. */
export class Largest {
  private count = 0;
  private readonly keys: Int32Array;
  private readonly sizes: Float64Array;
  rest = 0;

  constructor(private readonly limit: number) {
    this.keys = new Int32Array(limit + 1);
    this.sizes = zeroTable(limit + 1);
  }

  /** Equals go by key, the lower first. */
  add(key: number, size: number): void {
    if (size <= 0) return;
    const { keys, sizes } = this;
    let at = this.count;
    while (at > 0 && (size > sizes[at - 1]! || (size === sizes[at - 1] && key < keys[at - 1]!)))
      at--;
    if (at >= this.limit) {
      this.rest += size;
      return;
    }
    for (let i = this.count; i > at; i--) {
      keys[i] = keys[i - 1]!;
      sizes[i] = sizes[i - 1]!;
    }
    keys[at] = key;
    sizes[at] = size;
    if (this.count < this.limit) this.count++;
    else this.rest += sizes[this.limit]!;
  }

  /** The largest first. */
  entries(): { key: number; size: number }[] {
    return Array.from({ length: this.count }, (_, i) => {
      return { key: this.keys[i]!, size: this.sizes[i]! };
    });
  }

  copy(): Largest {
    const other = new Largest(this.limit);
    other.keys.set(this.keys);
    other.sizes.set(this.sizes);
    other.count = this.count;
    other.rest = this.rest;
    return other;
  }
}
