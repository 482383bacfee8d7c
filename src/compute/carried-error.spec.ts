import { describe, expect, it } from '@jest/globals';

import { carrying, unpack } from './carried-error.js';

class TooOdd extends Error {
  constructor(readonly odd: number[]) {
    super(`${odd.length} are odd`);
  }
}

const task = carrying((numbers: number[]) => {
  const odd = numbers.filter((number) => number % 2 !== 0);
  if (odd.length > 2) throw new TooOdd(odd);
  if (numbers.length === 0) throw new TypeError('none');
  return numbers.length;
});

/** As between threads. */
const overTheBorder = (numbers: number[]) =>
  unpack(structuredClone(task(numbers)), { TooOdd }) as unknown;

describe('errors between threads', () => {
  it('keep their class and members where whoever asked knows them', () => {
    expect(overTheBorder([1, 2])).toBe(2);
    let thrown: unknown;
    try {
      overTheBorder([1, 3, 5]);
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toBeInstanceOf(TooOdd);
    expect(thrown).toMatchObject({ odd: [1, 3, 5], message: '3 are odd' });
  });

  it('are told by name otherwise', () => {
    expect(() => overTheBorder([])).toThrow('TypeError: none');
  });
});
