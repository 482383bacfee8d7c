/** Something to be taken out largest first; equals: the deeper first, then the one that came first. */
export interface Ranked {
  readonly rank: number;
  readonly depth: number;
  readonly order: number;
}

function isBefore(a: Ranked, b: Ranked): boolean {
  if (a.rank !== b.rank) return a.rank > b.rank;
  return a.depth !== b.depth ? a.depth > b.depth : a.order < b.order;
}

/** A binary heap. */
export class Heap<T extends Ranked> {
  private readonly items: T[] = [];

  push(item: T): void {
    let at = this.items.length;
    this.items.push(item);
    while (at > 0) {
      const above = (at - 1) >> 1;
      const other = this.items[above];
      if (!other || !isBefore(item, other)) break;
      this.items[at] = other;
      at = above;
    }
    this.items[at] = item;
  }

  pop(): T | undefined {
    const [top] = this.items;
    const last = this.items.pop();
    if (last && this.items.length > 0) this.sink(last);
    return top;
  }

  private sink(item: T): void {
    let at = 0;
    for (;;) {
      const [left, right] = [this.items[2 * at + 1], this.items[2 * at + 2]];
      if (!left) break;
      const isRight = right !== undefined && isBefore(right, left);
      const first = isRight ? right : left;
      if (!isBefore(first, item)) break;
      this.items[at] = first;
      at = 2 * at + (isRight ? 2 : 1);
    }
    this.items[at] = item;
  }
}
