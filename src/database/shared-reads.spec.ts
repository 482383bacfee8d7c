import { describe, expect, it } from '@jest/globals';
import { SharedReads } from './shared-reads.js';

/** A read that ends when it is told to, and gives how often it was begun. */
function slowReads() {
  const ends: ((error?: Error) => void)[] = [];
  const read = () => {
    const time = ends.length + 1;
    return new Promise<number>((resolve, reject) => {
      ends.push((error) => (error === undefined ? resolve(time) : reject(error)));
    });
  };
  return { read, ends };
}

const settled = () => new Promise((resolve) => setImmediate(resolve));

describe('reads of what several ask for at once', () => {
  it('are two of fifty: who comes while one is under way is answered by one that begins later', async () => {
    const reads = new SharedReads();
    const { read, ends } = slowReads();
    const all = Array.from({ length: 50 }, () => reads.read('a', read));
    await settled();
    expect(ends).toHaveLength(1);
    ends[0]?.();
    await settled();
    expect(ends).toHaveLength(2);
    // It has begun, so it may miss what they know of.
    const late = Array.from({ length: 3 }, () => reads.read('a', read));
    ends[1]?.();
    await settled();
    expect(ends).toHaveLength(3);
    ends[2]?.();
    expect(await Promise.all(all)).toEqual([1, ...Array.from({ length: 49 }, () => 2)]);
    expect(await Promise.all(late)).toEqual([3, 3, 3]);
  });

  it('are by themselves where something else is asked, and begin anew when all were answered', async () => {
    const reads = new SharedReads();
    const { read, ends } = slowReads();
    const both = [reads.read('a', read), reads.read('b', read)];
    expect(ends).toHaveLength(2);
    ends.forEach((end) => end());
    expect(await Promise.all(both)).toEqual([1, 2]);
    const again = reads.read('a', read);
    expect(ends).toHaveLength(3);
    ends[2]?.();
    expect(await again).toBe(3);
  });

  it('fail for all who were to be answered by them, and for nobody else', async () => {
    const reads = new SharedReads();
    const { read, ends } = slowReads();
    const first = reads.read('a', read);
    const next = [reads.read('a', read), reads.read('a', read)];
    const wrong = expect(first).rejects.toThrow('first');
    ends[0]?.(new Error('first'));
    await wrong;
    await settled();
    expect(ends).toHaveLength(2);
    const last = reads.read('a', read);
    const bothWrong = Promise.all(next.map((one) => expect(one).rejects.toThrow('next')));
    ends[1]?.(new Error('next'));
    await bothWrong;
    await settled();
    ends[2]?.();
    expect(await last).toBe(3);
  });
});
