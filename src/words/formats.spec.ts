import { describe, expect, it } from '@jest/globals';
import { chooseLanguage, wholePercents, wordsIn } from './index.js';

describe('whole percents', () => {
  it.each([
    [
      [0.3333, 0.3333, 0.3334],
      [33, 33, 34],
    ],
    [
      [1 / 3, 1 / 3, 1 / 3],
      [34, 33, 33],
    ],
    [
      [0.29, 0.71],
      [29, 71],
    ],
    [
      [0.005, 0.995],
      [1, 99],
    ],
    [
      [0.004, 0.003, 0.003, 0.99],
      [1, 0, 0, 99],
    ],
    [[1], [100]],
    [[], []],
    [
      [0.2, 0.21],
      [20, 21],
    ],
  ])('of %j are %j', (chances, percents) => {
    expect(wholePercents(chances)).toEqual(percents);
  });

  it('add up to 100 whatever the chances, and none is off by a whole percent', () => {
    for (let n = 1; n <= 60; n++) {
      const weights = Array.from({ length: n }, (_, i) => ((i * 7919 + n * 104_729) % 997) + 1);
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      const chances = weights.map((weight) => weight / total);
      const percents = wholePercents(chances);
      expect(percents.reduce((sum, one) => sum + one, 0)).toBe(100);
      percents.forEach((one, i) => expect(Math.abs(one - 100 * chances[i]!)).toBeLessThan(1));
    }
  });
});

describe('a chance', () => {
  it('is never told as impossible or certain where it is neither', () => {
    const { chance } = wordsIn('en').formats;
    expect([0, 0.004, 0.006, 0.5, 0.994, 0.996, 1].map(chance)).toEqual([
      '0 %',
      'less than 1 %',
      '1 %',
      '50 %',
      '99 %',
      'more than 99 %',
      '100 %',
    ]);
  });
});

describe('the language of somebody who asks', () => {
  it.each([
    [undefined, 'en'],
    ['', 'en'],
    ['fr', 'fr'],
    ['es-MX,es;q=0.9,en;q=0.8', 'es'],
    ['de, hi;q=0.5, fr;q=0.7', 'fr'],
    ['de', 'en'],
    ['*', 'en'],
    ['fr;q=0, hi;q=0.1', 'hi'],
    ['FR-ca ; Q=0.4 , en;q=0.2', 'fr'],
    ['fr;q=nonsense, hi;q=0.3', 'hi'],
    [`${'x,'.repeat(5000)}fr`, 'en'],
  ])('%j gets %s', (accepted, language) => {
    expect(chooseLanguage(accepted)).toBe(language);
  });
});
