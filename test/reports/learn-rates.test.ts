import { describe, expect, it } from '@jest/globals';
import { componentRate, learnClass } from '#app/statistics/learn-rates.js';
import { seededRandom } from '../electrical/seeded-random.js';

/** Poisson by counting exponential gaps. */
function poisson(mean: number, random: () => number): number {
  let count = 0;
  for (let at = -Math.log(1 - random()); at < mean; at -= Math.log(1 - random())) count++;
  return count;
}

describe('learned rates on sparse simulated records', () => {
  it('predict the next ten years better than each component alone and than one rate for all', () => {
    const random = seededRandom(40);
    const truth: number[] = [];
    const records = Array.from({ length: 12 }, (_, s) => {
      const siteFactor = s % 4 === 0 ? 4 : 0.5;
      return Array.from({ length: 30 }, (_, c) => {
        const rate = 0.01 * siteFactor * (c % 10 === 0 ? 5 : 0.6);
        truth.push(rate);
        const common = { className: 'terminal', mode: 'parted', site: `${s}`, components: 1 };
        return { ...common, exposure: 10, events: poisson(rate * 10, random) };
      });
    }).flat();
    const learned = learnClass(records, { rate: 0.01, events: 1 });
    // Mean Poisson surprise of the next ten years, less what all guesses share.
    const surprise = (guess: (i: number) => number) =>
      truth.reduce((sum, rate, i) => sum + guess(i) - rate * Math.log(guess(i)), 0) / truth.length;
    const best = surprise((i) => truth[i]!);
    const shrunk = surprise((i) => componentRate(learned, records[i]!)) - best;
    const alone = surprise((i) => (1 + records[i]!.events) / (1 / 0.01 + 10)) - best;
    const flat = surprise((i) => (0.5 + records[i]!.events) / 10) - best;
    const pooled = surprise(() => learned.classRate) - best;
    expect(shrunk).toBeGreaterThan(0);
    expect(shrunk).toBeLessThan(0.8 * pooled);
    expect(shrunk).toBeLessThan(0.8 * alone);
    expect(shrunk).toBeLessThan(0.3 * flat);
  });
});
