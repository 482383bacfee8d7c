import { describe, expect, it } from '@jest/globals';
import { scaledViews, type ScaledViews, ViewProducts } from './view-products.js';

const WIDTH = 8;

/** Chances of some views, of no shape in particular. */
const branch = (seed: number): ScaledViews =>
  scaledViews(Float64Array.from({ length: WIDTH }, (_, view) => ((seed * 7 + view * 5) % 11) / 11));

/** Chance of each view of some branches together: over all that each of them can be. */
function together(branches: readonly ScaledViews[]): number[] {
  const chances = new Array<number>(WIDTH).fill(0);
  const add = (b: number, view: number, chance: number): void => {
    const next = branches[b];
    if (!next) chances[view] = (chances[view] ?? 0) + chance;
    else
      next.views.forEach((own, other) => {
        add(b + 1, view | other, chance * own * Math.exp(next.log));
      });
  };
  add(0, 0, 1);
  return chances;
}

describe('what is seen in several branches together', () => {
  for (const count of [0, 1, 2, 4])
    it(`is the union of ${count}, and of all but one`, () => {
      const branches = Array.from({ length: count }, (_, b) => branch(b + 1));
      const products = new ViewProducts(branches, WIDTH);
      const expectSame = ({ views, log }: ScaledViews, own: readonly ScaledViews[]) => {
        const expected = together(own);
        views.forEach((chance, view) => {
          expect(chance * Math.exp(log)).toBeCloseTo(expected[view] ?? NaN, 10);
        });
      };
      expectSame(products.all(), branches);
      for (let j = 0; j < count; j++)
        expectSame(
          products.without(j),
          branches.filter((_, b) => b !== j),
        );
    });
});
