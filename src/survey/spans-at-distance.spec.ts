import { describe, expect, it } from '@jest/globals';
import { spansAtDistance } from './spans-at-distance.js';

const nodes = [
  { parent: null, cableMetres: 20 },
  { parent: 0, cableMetres: 30 },
  { parent: 1, cableMetres: 10 },
  { parent: 1, cableMetres: 40 },
];

describe('spans at a distance', () => {
  it('finds the stretch inside a span', () => {
    expect(spansAtDistance(nodes, 25, 32)).toEqual([{ node: 1, fromMetres: 5, toMetres: 12 }]);
  });

  it('follows both branches of a tee', () => {
    expect(spansAtDistance(nodes, 48, 55)).toEqual([
      { node: 1, fromMetres: 28, toMetres: 30 },
      { node: 2, fromMetres: 0, toMetres: 5 },
      { node: 3, fromMetres: 0, toMetres: 5 },
    ]);
  });

  it('names both sides of a node, and nothing beyond the trunk', () => {
    expect(spansAtDistance(nodes, 20, 20).map(({ node }) => node)).toEqual([0, 1]);
    expect(spansAtDistance(nodes, 91, 95)).toEqual([]);
  });
});
