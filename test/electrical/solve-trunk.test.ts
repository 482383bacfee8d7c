import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { ElectricalError, solveTrunk } from '#app/locator/electrical/index.js';
import type { SupplyTrunk, TrunkSolution } from '#app/locator/electrical/index.js';
import { arbitraryTrunk } from './arbitrary-trunk.js';
import { denseSolve } from './dense-solve.js';

const RUNS = { seed: 60228, numRuns: 300 };

function solveOrCollapse(trunk: SupplyTrunk): TrunkSolution | null {
  try {
    return solveTrunk(trunk);
  } catch (error) {
    if (error instanceof ElectricalError && error.code === 'supply-collapses') return null;
    throw error;
  }
}

describe('the ladder', () => {
  it('agrees with the dense nodal matrix', () => {
    let solved = 0;
    fc.assert(
      fc.property(arbitraryTrunk(1), (trunk) => {
        const solution = solveOrCollapse(trunk);
        if (solution === null) return;
        solved++;
        const dense = denseSolve(trunk);
        expect(dense).not.toBeNull();
        solution.nodeVolts.forEach((v, i) => expect(Math.abs(v - dense![i]!)).toBeLessThan(1e-6));
      }),
      RUNS,
    );
    expect(solved).toBeGreaterThan(150);
  });

  it('calls a collapse only what the dense matrix cannot feed with voltage left everywhere', () => {
    let collapsed = 0;
    fc.assert(
      fc.property(arbitraryTrunk(8), (trunk) => {
        if (solveOrCollapse(trunk) !== null) return;
        collapsed++;
        const loaded = (v: number, i: number) => v > 0 || trunk.nodes[i]!.load === undefined;
        const dense = denseSolve(trunk);
        // Newton may still land on a solution with some voltage below zero: no trunk runs so.
        expect(dense === null || !dense.every(loaded) || feedsBackwards(trunk, dense)).toBe(true);
      }),
      RUNS,
    );
    expect(collapsed).toBeGreaterThan(50);
  });

  it('is finite, balances power and never rises along the trunk', () => {
    fc.assert(
      fc.property(arbitraryTrunk(2), (trunk) => {
        const solution = solveOrCollapse(trunk);
        if (solution === null) return;
        const { nodeVolts, spanAmps, portVolts, portAmps } = solution;
        let lost = 0;
        let used = 0;
        trunk.nodes.forEach((node, i) => {
          const above = node.parent === null ? portVolts : nodeVolts[node.parent]!;
          expect(above - nodeVolts[i]!).toBeGreaterThanOrEqual(0);
          lost += (above - nodeVolts[i]!) * spanAmps[i]!;
          if (node.load?.kind === 'amps') used += node.load.amps * nodeVolts[i]!;
          if (node.load?.kind === 'watts') used += node.load.watts;
        });
        expect(Math.abs(portVolts * portAmps - lost - used)).toBeLessThan(1e-6);
      }),
      RUNS,
    );
  });

  it('does not depend on the order in which nodes are drawn', () => {
    fc.assert(
      fc.property(arbitraryTrunk(1), (trunk) => {
        const solution = solveOrCollapse(trunk);
        if (solution === null) return;
        const last = trunk.nodes.length - 1;
        const nodes = trunk.nodes
          .map((node) => ({ ...node, parent: node.parent === null ? null : last - node.parent }))
          .reverse();
        const reversed = solveTrunk({ ...trunk, nodes }).nodeVolts.reverse();
        reversed.forEach((v, i) => expect(Math.abs(v - solution.nodeVolts[i]!)).toBeLessThan(1e-9));
      }),
      RUNS,
    );
  });
});

/** A node above its feeding node: current runs towards the source. */
function feedsBackwards(trunk: SupplyTrunk, volts: number[]): boolean {
  return trunk.nodes.some(
    ({ parent }, i) => volts[i]! > (parent === null ? trunk.sourceVolts : volts[parent]!) + 1e-6,
  );
}
