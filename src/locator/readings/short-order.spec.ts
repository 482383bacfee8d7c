import { describe, expect, it } from '@jest/globals';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { tablesOf } from '../../plan/plan-tables.js';
import { trunkTree } from '../sweep/trunk-tree.js';
import { CABLE, JUNCTION_IN, PARTS, rankShorts } from './short-order.js';

const node = (id: string, cableMetres: number, fedFrom: string | null) =>
  ({ id, kind: 'station', cableMetres, fedFrom }) as const;
const spansOnly = (_: number, part: number) => part < PARTS - 1;
const order = (
  nodes: ReturnType<typeof node>[],
  excess: (low: number) => number,
  most = Infinity,
) => {
  const tree = trunkTree(tablesOf(DEFAULT_PLAN), { id: 'A', nodes }, 1);
  return { tree, ...rankShorts(tree, spansOnly, excess).inSteps(most) };
};

describe('rankShorts', () => {
  it('keeps an unbranched trunk in one group', () => {
    const { rank, groupOf } = order(
      [node('A1', 10, null), node('A2', 10, 'A1'), node('A3', 10, 'A2')],
      () => 5,
    );
    expect(new Set([...rank].filter((r) => r >= 0).map((r) => groupOf(0, r))).size).toBe(1);
  });

  it('tells apart what another branch comes between, by the middles of cables', () => {
    const { tree, rank, groupOf } = order([node('A1', 10, null), node('B1', 30, null)], () => 5);
    const [a, b] = [tree.nodeIds.indexOf('A1'), tree.nodeIds.indexOf('B1')];
    const at = (n: number, part: number) => rank[n * PARTS + part] ?? -1;
    // Middles: 5 and 10 (end) against 15 and 30 (end).
    expect(at(a, CABLE)).toBeLessThan(at(a, JUNCTION_IN));
    expect(at(a, JUNCTION_IN)).toBeLessThan(at(b, CABLE));
    expect(groupOf(a, at(a, CABLE))).toBe(groupOf(a, at(a, JUNCTION_IN)));
    expect(groupOf(b, at(b, CABLE))).toBe(groupOf(b, at(b, JUNCTION_IN)));
  });

  it('gives what no reading weighs one rank, and places of equal distance another', () => {
    const { rank, excess } = order([node('A1', 10, null), node('B1', 10, null)], (low) =>
      low === 0 ? 0 : 1e-19,
    );
    expect(new Set([...rank].filter((r) => r >= 0)).size).toBe(1);
    expect(excess.every((value) => value === 0)).toBe(true);
  });
});
