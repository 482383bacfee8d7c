import { describe, expect, it } from '@jest/globals';
import { reliabilityOf } from './reliability.js';

const predicted = (...places: [string, number][]) =>
  places.map(([place, probability]) => ({ place, probability }));

describe('how right the predictions were', () => {
  const abcd = predicted(['a', 0.5], ['b', 0.25], ['c', 0.125], ['d', 0.0625]);
  const cases = [
    { predicted: abcd, found: ['a'] },
    { predicted: abcd, found: ['b', 'a'] },
    { predicted: abcd, found: ['d'] },
    { predicted: abcd, found: ['z'] },
    { predicted: null, found: ['a'] },
    { predicted: abcd, found: [] },
  ];

  it('counts hits by the place found first, and says what it left out', () => {
    expect(reliabilityOf(cases)).toMatchObject({
      hits: { cases: 4, first: 1, firstThree: 2 },
      notPredicted: 1,
      nothingFound: 1,
      notListed: 1,
      logScoreBits: (1 + 2 + 4) / 3,
    });
  });

  it('draws the curve from the first three places, each come true or not', () => {
    const { curve } = reliabilityOf(cases);
    expect(curve.map(({ stated, count, observed }) => [stated, count, observed])).toEqual([
      [0.125, 4, 0],
      [0.25, 4, 0.25],
      [0.5, 4, 0.5],
    ]);
    expect(reliabilityOf(cases).curve).toEqual(curve);
  });

  it('has no figures without cases', () => {
    expect(reliabilityOf([])).toMatchObject({
      hits: { cases: 0, firstShare: null },
      logScoreBits: null,
      curve: [],
    });
  });
});
