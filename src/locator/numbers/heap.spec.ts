import { describe, expect, it } from '@jest/globals';
import { Heap } from './heap.js';

describe('a heap', () => {
  it('gives back largest first, then deepest, then oldest', () => {
    const heap = new Heap<{ rank: number; depth: number; order: number }>();
    const items = Array.from({ length: 200 }, (_, order) => {
      return { rank: (order * 37) % 11, depth: (order * 53) % 7, order };
    });
    items.forEach((item) => heap.push(item));
    const out = items.map(() => heap.pop());
    const sorted = [...items].sort(
      (a, b) => b.rank - a.rank || b.depth - a.depth || a.order - b.order,
    );
    expect(out).toEqual(sorted);
    expect(heap.pop()).toBeUndefined();
  });
});
