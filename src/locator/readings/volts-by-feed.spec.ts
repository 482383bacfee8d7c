import { describe, expect, it } from '@jest/globals';
import { DEAD_FEED } from '../sweep/feed-classes.js';
import { systemOf } from '../sweep/system.js';
import { voltsByFeed } from './volts-by-feed.js';

const read = (volts: number) => ({
  volts,
  uncertaintyVolts: 0.05,
  nominalVolts: 22,
  sourceVolts: 24,
  rangeVolts: 36,
});
const { feedClasses } = systemOf();
const weak = feedClasses.weak.indexOf(1);

describe('voltsByFeed', () => {
  it('prefers the full feed at nominal, the weak below, the dead at nothing', () => {
    const best = (volts: number) => {
      const logs = voltsByFeed(feedClasses, [read(volts)]);
      return [feedClasses.full, weak, DEAD_FEED].sort((a, b) => (logs[b] ?? 0) - (logs[a] ?? 0))[0];
    };
    expect([best(22.1), best(14), best(0.05)]).toEqual([feedClasses.full, weak, DEAD_FEED]);
  });

  it('leaves the flat share where nothing fits, and adds up over readings', () => {
    expect(voltsByFeed(feedClasses, [read(35)])[DEAD_FEED]).toBeCloseTo(Math.log(0.01 / 36), 12);
    const both = voltsByFeed(feedClasses, [read(20), read(3)]);
    const apart = [voltsByFeed(feedClasses, [read(20)]), voltsByFeed(feedClasses, [read(3)])];
    expect(both[weak]).toBeCloseTo((apart[0]?.[weak] ?? 0) + (apart[1]?.[weak] ?? 0), 12);
  });
});
