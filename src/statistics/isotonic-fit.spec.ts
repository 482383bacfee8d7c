import { describe, expect, it } from '@jest/globals';
import { isotonicFit } from './isotonic-fit.js';

const of = (...values: number[]) => values.map((value) => ({ value, weight: 1 }));

describe('isotonic fit', () => {
  it('keeps what does not fall', () => {
    expect(isotonicFit(of(1, 2, 2, 5))).toEqual([1, 2, 2, 5]);
    expect(isotonicFit([])).toEqual([]);
  });

  it('pools adjacent violators', () => {
    expect(isotonicFit(of(1, 3, 2, 4))).toEqual([1, 2.5, 2.5, 4]);
    expect(isotonicFit(of(3, 2, 1))).toEqual([2, 2, 2]);
  });

  it('weighs', () => {
    const values = [
      { value: 1, weight: 3 },
      { value: 0, weight: 1 },
    ];
    expect(isotonicFit(values)).toEqual([0.75, 0.75]);
  });
});
