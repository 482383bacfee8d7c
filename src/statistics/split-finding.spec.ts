import { describe, expect, it } from '@jest/globals';
import { splitFinding } from './split-finding.js';

const posterior = [
  { component: 'A4/junction-in', mode: 'parted', probability: 0.3 },
  { component: 'A4/junction-in', mode: 'open-supply', probability: 0.1 },
  { component: 'A4/cable', mode: 'parted', probability: 0.2 },
  { component: 'A4/cable', mode: 'short-select', probability: 0 },
];

describe('splitting a finding', () => {
  it('counts a certain finding once, whatever was thought before', () => {
    const found = { component: 'A4/cable', mode: 'short-select' };
    expect(splitFinding(posterior, found)).toEqual([{ ...found, events: 1 }]);
  });

  it('spreads an uncertain one by posterior share, in all once', () => {
    const events = splitFinding(posterior, {});
    expect(events.map((e) => e.events)).toEqual([0.5, 1 / 6, 1 / 3].map((x) => expect.closeTo(x)));
    expect(events.reduce((sum, e) => sum + e.events, 0)).toBeCloseTo(1, 12);
  });

  it('spreads only over what the finding leaves open', () => {
    expect(splitFinding(posterior, { component: 'A4/junction-in' })).toEqual([
      { component: 'A4/junction-in', mode: 'parted', events: expect.closeTo(0.75) },
      { component: 'A4/junction-in', mode: 'open-supply', events: expect.closeTo(0.25) },
    ]);
    expect(splitFinding(posterior, { mode: 'parted' }).map((e) => e.component)).toEqual([
      'A4/junction-in',
      'A4/cable',
    ]);
  });

  it('is an error where nothing possible fits', () => {
    expect(() => splitFinding(posterior, { component: 'B1' })).toThrow('no fault mode');
    expect(() => splitFinding([{ ...posterior[0]!, probability: 2 }], {})).toThrow('probability');
  });
});
