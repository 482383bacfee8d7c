import { describe, expect, it } from '@jest/globals';
import { feedingOrder } from './feeding-order.js';

const fed = (...parents: (number | null)[]) => parents.map((parent) => ({ parent }));

describe('feeding order', () => {
  it('keeps a path and turns round one drawn backwards', () => {
    expect(feedingOrder(fed(null, 0, 1))).toEqual([0, 1, 2]);
    expect(feedingOrder(fed(1, 2, null))).toEqual([2, 1, 0]);
  });

  it('visits every branch of a tee and every first span', () => {
    expect(feedingOrder(fed(null, 0, 0, null))).toEqual([0, 3, 1, 2]);
  });

  it('is empty for no nodes', () => {
    expect(feedingOrder([])).toEqual([]);
  });

  it('names the node whose parent is missing', () => {
    expect(() => feedingOrder(fed(null, 7))).toThrow('nodes/1/parent: there is no node 7');
  });

  it('names a node in a circle', () => {
    expect(() => feedingOrder(fed(null, 2, 1))).toThrow(
      'nodes/1/parent: the node is fed in a circle',
    );
  });
});
