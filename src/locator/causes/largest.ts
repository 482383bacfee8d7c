/** The largest of many numbers, with the keys that they came with, and the sum of all that are not among them. */
export class Largest {
  readonly entries: { key: number; size: number }[] = [];
  rest = 0;

  constructor(private readonly limit: number) {}

  /** Equals go by key, the lower first. */
  add(key: number, size: number): void {
    if (size <= 0) return;
    let at = this.entries.length;
    while (at > 0 && isBefore(size, key, this.entries[at - 1])) at--;
    if (at >= this.limit) {
      this.rest += size;
      return;
    }
    this.entries.splice(at, 0, { key, size });
    if (this.entries.length > this.limit) this.rest += this.entries.pop()?.size ?? 0;
  }

  copy(): Largest {
    const other = new Largest(this.limit);
    other.entries.push(...this.entries);
    other.rest = this.rest;
    return other;
  }
}

function isBefore(size: number, key: number, other?: { key: number; size: number }): boolean {
  if (!other) return false;
  return size > other.size || (size === other.size && key < other.key);
}
