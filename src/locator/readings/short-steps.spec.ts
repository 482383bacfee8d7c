import { describe, expect, it } from '@jest/globals';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { tablesOf } from '../../plan/plan-tables.js';
import { trunkTree } from '../sweep/trunk-tree.js';
import { CABLE, rankShorts } from './short-order.js';
import { shortSteps } from './short-steps.js';
import type { TrunkReadings } from './trunk-readings.js';

/** Two branches of so many cables each, whose middles take turns. */
function twoBranches(rooms: number) {
  const branch = (name: string, first: number) =>
    Array.from({ length: rooms }, (_, i) => ({
      id: `${name}${i}`,
      kind: 'station' as const,
      cableMetres: i === 0 ? first : 10,
      fedFrom: i === 0 ? null : `${name}${i - 1}`,
    }));
  const nodes = [...branch('A', 10), ...branch('B', 15)];
  return trunkTree(tablesOf(DEFAULT_PLAN), { id: 'A', nodes }, 1);
}

const inCables = (_: number, part: number) => part === CABLE;
/** Of a meter that read a short between these. */
const between = (from: number, to: number) => (low: number) => (low >= from && low < to ? 5 : 0);

describe('shortSteps', () => {
  const stepsOf = (
    rooms: number,
    [from, to]: readonly [number, number],
    loops = 1,
    stretches: TrunkReadings['stretches'] = [],
  ) => {
    const tree = twoBranches(rooms);
    const ranked = Array.from({ length: loops }, () =>
      rankShorts(tree, inCables, between(from, to)),
    );
    return shortSteps(tree, stretches, ranked);
  };

  it('compares one by one on a trunk of 16 nodes, and where few places are in question', () => {
    expect(stepsOf(8, [0, 80])).toBe(Infinity);
    expect(stepsOf(8, [30, 60], 2)).toBe(Infinity);
    expect(stepsOf(40, [300, 320])).toBe(Infinity);
  });

  it('takes no more labels than the locator carries, on a short trunk too', () => {
    expect(stepsOf(8, [0, 80], 2)).toBeLessThan(16);
    expect(stepsOf(8, [0, 80], 4)).toBeLessThan(stepsOf(8, [0, 80], 2));
  });

  it('takes the fewer steps the more loops and stretches there are', () => {
    const path = new Set(Array.from({ length: 20 }, (_, n) => n));
    const stretch = { from: -1, spans: path, cores: 1, likelihood: [1, 1] } as const;
    const far = [40, 120] as const;
    const steps = [
      stepsOf(40, far),
      stepsOf(40, far, 1, [stretch]),
      stepsOf(40, far, 2),
      stepsOf(40, far, 3),
      stepsOf(40, far, 6),
    ];
    expect(steps).toEqual([Infinity, 4, 1, 1, 1]);
  });

  it('takes as many on a trunk that is ten times as long, where each room has as many labels', () => {
    expect(stepsOf(400, [200, 300])).toBeGreaterThanOrEqual(stepsOf(40, [200, 300]));
  });

  it('has two steps share what is between them by halves', () => {
    const tree = twoBranches(4);
    const { ranks, inSteps } = rankShorts(tree, inCables, between(0, 1000));
    expect(ranks).toBe(8);
    const inCablesOf = (steps: number) =>
      [...inSteps(steps).rank].filter((rank) => rank >= 0).sort((a, b) => a - b);
    expect(inCablesOf(Infinity)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(inCablesOf(2)).toEqual([0, 0, 0, 0, 1, 1, 1, 1]);
    expect(inCablesOf(1)).toEqual([0, 0, 0, 0, 0, 0, 0, 0]);
  });
});
