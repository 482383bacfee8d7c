import { describe, expect, it } from '@jest/globals';
import { locate } from '../locator/index.js';
import { findingShares } from './finding-shares.js';

const result = locate({
  trunks: [{ id: 'A', nodes: [{ id: '1', kind: 'station', cableMetres: 5 }] }],
  exposureDays: 90,
  observations: [{ trunk: 'A', node: '1', function: 'bell', outcome: 'fails' }],
});
const span = { kind: 'span', trunk: 'A', from: null, to: '1' } as const;
const sum = (shares: { events: number }[]) =>
  shares.reduce((total, { events }) => total + events, 0);

describe('a finding as events', () => {
  it('is one whole event where component and mode were named', () => {
    const named = { component: 'cable', mode: 'parted' };
    expect(findingShares(span, named, result)).toEqual([{ ...named, events: 1 }]);
  });

  it('is spread over what it leaves open, by the chances then', () => {
    const shares = findingShares(span, {}, result);
    expect(sum(shares)).toBeCloseTo(1, 12);
    const of = (component: string, mode: string) =>
      shares.find((one) => one.component === component && one.mode === mode)!.events;
    expect(of('junction-in', 'parted')).toBeGreaterThan(of('cable', 'parted'));
    const joint = findingShares(span, { component: 'junction-in', mode: null }, result);
    expect(sum(joint)).toBeCloseTo(1, 12);
    expect(joint.every(({ component }) => component === 'junction-in')).toBe(true);
  });

  it('is none at a place that was not thought of', () => {
    expect(findingShares({ kind: 'port', trunk: 'Z' }, {}, result)).toEqual([]);
  });
});
