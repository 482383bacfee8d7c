import { describe, expect, it } from '@jest/globals';
import type { LocateRequest, RequestNode } from '../request/locate-request.js';
import { trunkTree } from '../sweep/trunk-tree.js';
import { drawnOtherwise } from './drawn-otherwise.js';
import { DRAWING_DOUBT, otherDrawings } from './other-drawings.js';
import { countInnerRuns, unbranchedStretches } from './unbranched.js';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import { treeOf } from '../../drawing/drawn-tree.js';
import { tablesOf } from '../../plan/plan-tables.js';

const PLAN = tablesOf(DEFAULT_PLAN);

const station = (id: string, more: Partial<RequestNode> = {}): RequestNode => ({
  id,
  kind: 'station',
  cableMetres: 10,
  ...more,
});

/** Stations A1 to An in a row; announcements were silent in some, heard in others. */
function inARow(count: number, silent: readonly number[], heard: readonly number[]): LocateRequest {
  const told = (nodes: readonly number[], outcome: 'fails' | 'works') =>
    nodes.map((n) => ({
      trunk: 'A',
      node: `A${n}`,
      function: 'announcement' as const,
      outcome,
    }));
  return {
    trunks: [{ id: 'A', nodes: Array.from({ length: count }, (_, n) => station(`A${n + 1}`)) }],
    exposureDays: 91,
    observations: [...told(silent, 'fails'), ...told(heard, 'works')],
  };
}

function others(request: LocateRequest) {
  const [trunk] = request.trunks;
  return trunk
    ? otherDrawings(request, trunkTree(PLAN, trunk, request.exposureDays), DRAWING_DOUBT)
    : [];
}

describe('the ways in which a trunk may be laid other than drawn', () => {
  it('cuts a trunk at its tees', () => {
    const tree = trunkTree(
      PLAN,
      {
        id: 'A',
        nodes: [
          station('A1', { fedFrom: null }),
          station('A2', { fedFrom: 'A1' }),
          station('A3', { fedFrom: 'A2' }),
          station('A4', { fedFrom: 'A2' }),
          station('A5', { fedFrom: 'A4' }),
        ],
      },
      91,
    );
    const named = unbranchedStretches(tree).map((stretch) => stretch.map((n) => tree.nodeIds[n]));
    expect(named).toEqual([['A1', 'A2'], ['A3'], ['A4', 'A5']]);
    expect(countInnerRuns([0, 1, 2, 3, 4])).toBe(6);
    expect(countInnerRuns([0, 1])).toBe(0);
  });

  it('weighs the silent run between heard rooms as a branch and as the end, and the rooms beside its borders', () => {
    const found = others(inARow(10, [5, 6, 7, 8], [1, 2, 3, 4, 9, 10]));
    const runs = 8 * 9 * 0.5;
    expect(found.map(({ other }) => other.kind)).toEqual(['branch', 'end', 'swapped', 'swapped']);
    expect(found[0]?.other).toEqual({
      kind: 'branch',
      before: 'A4',
      run: ['A5', 'A6', 'A7', 'A8'],
      after: 'A9',
    });
    expect(found[1]?.other).toMatchObject({ kind: 'end', last: 'A10' });
    expect(found[0]?.prior).toBeCloseTo(0.02 / 3 / runs, 12);
    expect(found[2]).toMatchObject({ other: { upper: 'A4', lower: 'A5' }, prior: 0.02 / 3 / 9 });
  });

  it('takes runs that only rooms without a word tell apart for one, and adds their priors', () => {
    const [branch] = others(inARow(10, [5, 6], [2, 9]));
    expect(branch?.other).toMatchObject({ before: 'A4', run: ['A5', 'A6'], after: 'A7' });
    expect(branch?.widest).toEqual({ from: 'A3', to: 'A8' });
    expect(branch?.prior).toBeCloseTo((0.02 / 3 / 36) * 9, 12);
  });

  it('finds nothing where what was told changes once', () => {
    const kinds = others(inARow(6, [5, 6], [1, 2])).map(({ other }) => other.kind);
    expect(kinds).toEqual([]);
  });
});

describe('a request over another drawing', () => {
  const request = inARow(6, [3, 4], [1, 2, 5, 6]);
  const feeds = (redrawn: LocateRequest | null) =>
    (redrawn?.trunks ?? []).flatMap((trunk) => {
      const { nodeIds, parent } = treeOf(trunk);
      return nodeIds.map((id, n) => `${nodeIds[parent[n] ?? -1] ?? 'port'}>${id}`);
    });

  it('hangs a run from a tee', () => {
    const redrawn = drawnOtherwise(request, 'A', {
      kind: 'branch',
      before: 'A2',
      run: ['A3', 'A4'],
      after: 'A5',
    });
    expect(feeds(redrawn)).toEqual(['port>A1', 'A1>A2', 'A2>A3', 'A2>A5', 'A3>A4', 'A5>A6']);
  });

  it('puts a run behind the last node', () => {
    const redrawn = drawnOtherwise(request, 'A', {
      kind: 'end',
      before: 'A2',
      run: ['A3', 'A4'],
      after: 'A5',
      last: 'A6',
    });
    expect(feeds(redrawn)).toEqual(['port>A1', 'A1>A2', 'A2>A5', 'A5>A6', 'A6>A3', 'A3>A4']);
  });

  it('swaps names, and leaves metres and exposure where they are', () => {
    const [trunk] = request.trunks;
    const nodes = trunk?.nodes.map((node, n) => ({ ...node, cableMetres: n + 1 })) ?? [];
    const own = { ...request, trunks: [{ id: 'A', nodes }] };
    const redrawn = drawnOtherwise(own, 'A', { kind: 'swapped', upper: 'A2', lower: 'A3' });
    expect(feeds(redrawn)).toEqual(['port>A1', 'A1>A3', 'A3>A2', 'A2>A4', 'A4>A5', 'A5>A6']);
    expect(redrawn?.trunks[0]?.nodes.map(({ cableMetres }) => cableMetres)).toEqual([
      1, 2, 3, 4, 5, 6,
    ]);
  });

  it('swaps names where feeds are drawn, and what is known of a unit goes with its name', () => {
    const nodes = [
      station('A1', { fedFrom: null, exposureDays: 7 }),
      station('A2', { fedFrom: 'A1', lacks: ['lamp'] }),
      station('A3', { fedFrom: 'A2', cableMetres: 30 }),
      station('A4', { fedFrom: 'A1', cableMetres: 40, isOut: true }),
    ];
    const own = { ...request, trunks: [{ id: 'A', nodes }] };
    const redrawn = drawnOtherwise(own, 'A', { kind: 'swapped', upper: 'A1', lower: 'A4' });
    expect(feeds(redrawn)).toEqual(['port>A4', 'A4>A1', 'A4>A2', 'A2>A3']);
    expect(redrawn?.trunks[0]?.nodes).toEqual([
      station('A4', { fedFrom: null, exposureDays: 7, isOut: true }),
      station('A2', { fedFrom: 'A4', lacks: ['lamp'] }),
      station('A3', { fedFrom: 'A2', cableMetres: 30 }),
      station('A1', { fedFrom: 'A4', cableMetres: 40 }),
    ]);
  });

  it('does without an alternative that a continuity reading does not fit', () => {
    const measured: LocateRequest = {
      ...request,
      readings: [
        { kind: 'continuity', trunk: 'A', from: 'A3', to: 'A6', cores: ['supply'], passes: true },
      ],
    };
    const branch = { kind: 'branch', before: 'A2', run: ['A3', 'A4'], after: 'A5' } as const;
    expect(drawnOtherwise(measured, 'A', branch)).toBeNull();
  });
});
