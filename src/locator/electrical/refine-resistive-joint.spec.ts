import { describe, expect, it } from '@jest/globals';
import { JointQuestion } from './joint-question.js';
import { refineResistiveJoint } from './refine-resistive-joint.js';
import { solveTrunk } from './solve-trunk.js';
import { SupplyTrunk } from './supply-trunk.js';

const trunk: SupplyTrunk = {
  sourceVolts: 24,
  sourceOhms: 0.2,
  loopOhmsPerMetre: 0.0362,
  nodes: Array.from({ length: 8 }, (_, i) => ({
    parent: i === 0 ? null : i - 1,
    cableMetres: 20,
    load: { kind: 'amps', amps: 0.08 } as const,
  })),
};

/** What a meter would show, without noise, with a joint of so many ohms in the span to node 4. */
const voltsWith = (jointOhms: number) =>
  solveTrunk({ ...trunk, nodes: trunk.nodes.map((n, i) => (i === 4 ? { ...n, jointOhms } : n)) })
    .nodeVolts;

function question(read: number[], volts: number[]): JointQuestion {
  return {
    trunk,
    candidates: [null, 2, 3, 4, 5, 6].map((node) => ({ node, weight: 0.15 })),
    readings: read.map((node) => ({ node, volts: volts[node] ?? 0, uncertaintyVolts: 0.03 })),
    shared: { sourceVolts: 0.3, ohmsPerMetreShare: 0.03, loadShare: 0.1, meterVolts: 0.05 },
    jointOhms: { medianOhms: 2, logDeviation: 1.5 },
    wrongShare: 0.01,
  };
}
const chanceOf = (node: number | null, asked: JointQuestion) =>
  refineResistiveJoint(asked).candidates.find((c) => c.node === node)?.probability ?? 0;

describe('refining a resistive joint', () => {
  it('keeps the weights where there are no readings', () => {
    const { candidates, uncovered } = refineResistiveJoint(question([], []));
    candidates.forEach(({ probability }) => expect(probability).toBeCloseTo(0.15, 3));
    expect(uncovered).toBeCloseTo(0.1, 3);
  });

  it('finds the joint between two readings, and its ohms', () => {
    const asked = question([3, 4], voltsWith(6));
    const refined = refineResistiveJoint(asked);
    expect(chanceOf(4, asked)).toBeGreaterThan(0.85);
    const ohms = refined.candidates[3]?.ohms;
    expect(ohms?.low).toBeLessThan(6);
    expect(ohms?.high).toBeGreaterThan(6);
    expect(refined.candidates[0]?.ohms).toBeNull();
  });

  it('clears every joint when the trunk reads as drawn', () => {
    const sound = question([0, 7], solveTrunk(trunk).nodeVolts);
    expect(chanceOf(null, sound)).toBeGreaterThan(2 * chanceOf(4, sound));
  });

  it('does not take a low source for a joint: what is shared is no evidence', () => {
    const low = solveTrunk({ ...trunk, sourceVolts: 23.5 }).nodeVolts;
    const asked = question([0, 7], low);
    const certain = { ...asked, shared: { ...asked.shared, sourceVolts: 0, meterVolts: 0 } };
    expect(chanceOf(null, asked)).toBeGreaterThan(0.2);
    expect(chanceOf(null, certain)).toBeLessThan(0.1);
  });

  it('raises the mass not covered when no candidate fits, and never lowers it', () => {
    const odd = question([1, 3, 5, 7], [0, 3, 0, 15, 0, 2, 0, 17]);
    expect(refineResistiveJoint(odd).uncovered).toBeGreaterThan(0.1);
    expect(refineResistiveJoint(question([3, 4], voltsWith(6))).uncovered).toBeCloseTo(0.1, 9);
  });

  it('sums to one', () => {
    const { candidates, uncovered } = refineResistiveJoint(question([1, 6], voltsWith(3)));
    expect(candidates.reduce((sum, c) => sum + c.probability, uncovered)).toBeCloseTo(1, 12);
  });

  it('is a typed error for a trunk that collapses as drawn', () => {
    const weak = { ...question([3], voltsWith(1)), trunk: { ...trunk, sourceOhms: 60 } };
    expect(() => refineResistiveJoint(weak)).toThrow(
      expect.objectContaining({ code: 'supply-collapses' }),
    );
  });
});
