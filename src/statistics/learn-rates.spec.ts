import { describe, expect, it } from '@jest/globals';
import { type ClassPrior, componentRate, learnClass, type ModeExperience } from './learn-rates.js';

const prior = () => ({ rate: 0.01, events: 2 });
const record = (
  site: string,
  component: string,
  exposure: number,
  events: number,
): ModeExperience & { component: string } => ({
  className: 'push-in terminal',
  mode: 'parted',
  site,
  component,
  components: 1,
  exposure,
  events,
});

/** Of every record of one class and mode: the rates of its class, its site and itself. */
function learnRates(records: ReturnType<typeof record>[], prior: () => ClassPrior) {
  const learned = learnClass(records, prior());
  return records.map((one) => ({
    component: one.component,
    classRate: learned.classRate,
    siteRate: learned.siteRates.get(one.site)!,
    rate: componentRate(learned, one),
  }));
}

describe('learned rates', () => {
  it('is the prior without a record', () => {
    const [rate] = learnRates([record('s', 'c', 0, 0)], prior);
    expect(rate).toMatchObject({ classRate: 0.01, component: 'c' });
    expect(rate?.siteRate).toBeCloseTo(0.01, 12);
    expect(rate?.rate).toBeCloseTo(0.01, 12);
  });

  it('is conjugate for the class: (2 + 3)/(200 + 100)', () => {
    const rates = learnRates([record('s', 'a', 60, 1), record('t', 'b', 40, 2)], prior);
    expect(rates.map(({ classRate }) => classRate)).toEqual([5 / 300, 5 / 300]);
  });

  it('raises a bad site, and in it a bad component most', () => {
    const records = [
      ...Array.from({ length: 20 }, (_, i) => record('good', `g${i}`, 10, 0)),
      ...Array.from({ length: 20 }, (_, i) =>
        record('bad', `b${i}`, 10, i === 0 ? 4 : i % 3 === 0 ? 1 : 0),
      ),
    ];
    const rates = learnRates(records, prior);
    const rateOf = (component: string) => rates.find((r) => r.component === component)!;
    expect(rateOf('b1').siteRate).toBeGreaterThan(2 * rateOf('g1').siteRate);
    expect(rateOf('b0').rate).toBeGreaterThan(rateOf('b3').rate);
    expect(rateOf('b3').rate).toBeGreaterThan(rateOf('b1').rate);
    expect(rateOf('b1').rate).toBeGreaterThan(rateOf('g1').rate);
  });

  it('takes those that are alike together, or one by one', () => {
    const others = [record('s', 'a', 10, 2), record('t', 'b', 3, 0.5)];
    const alike = Array.from({ length: 40 }, () => record('s', 'c', 7, 0));
    const apart = learnClass([...others, ...alike], prior());
    const together = learnClass(
      [...others, { ...record('s', 'c', 7, 0), components: 40 }],
      prior(),
    );
    expect(together.classRate).toBeCloseTo(apart.classRate, 14);
    together.shares.forEach((share, i) => expect(share).toBeCloseTo(apart.shares[i]!, 12));
    expect(together.siteRates.get('s')).toBeCloseTo(apart.siteRates.get('s')!, 14);
  });

  it('names a record or a prior that cannot be', () => {
    expect(() => learnRates([record('s', 'a', -1, 0)], prior)).toThrow('experience/0/exposure');
    expect(() => learnRates([record('s', 'a', 1, 0)], () => ({ rate: 0, events: 1 }))).toThrow(
      'priors/push-in terminal/parted/rate',
    );
  });
});
