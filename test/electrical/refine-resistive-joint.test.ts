import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  ElectricalError,
  refineResistiveJoint,
  solveTrunk,
} from '#app/locator/electrical/index.js';
import type { JointQuestion, Load, SupplyTrunk } from '#app/locator/electrical/index.js';
import { arbitraryTrunk } from './arbitrary-trunk.js';
import { seededNormal, seededRandom } from './seeded-random.js';
import { cases } from '../support/thorough.js';

const shared = { sourceVolts: 0.3, ohmsPerMetreShare: 0.03, loadShare: 0.1, meterVolts: 0.05 };
const jointOhms = { medianOhms: 2, logDeviation: 1 };

function trunkOf(load: Load): SupplyTrunk {
  const parents = [null, 0, 1, 2, 1, 4, 5, 6];
  const nodes = parents.map((parent) => ({ parent, cableMetres: 25, load }));
  return { sourceVolts: 24, sourceOhms: 0.2, loopOhmsPerMetre: 0.0362, nodes };
}

/** One trunk as it might really be, from the shared uncertainties, with a joint at a node. */
function drawWorld(trunk: SupplyTrunk, node: number | null, ohms: number, normal: () => number) {
  const ohmsFactor = 1 + shared.ohmsPerMetreShare * normal();
  const loadFactor = 1 + shared.loadShare * normal();
  const world: SupplyTrunk = {
    ...trunk,
    sourceVolts: trunk.sourceVolts + shared.sourceVolts * normal(),
    loopOhmsPerMetre: trunk.loopOhmsPerMetre * ohmsFactor,
    nodes: trunk.nodes.map((drawn, i) => {
      const load: Load =
        drawn.load?.kind === 'watts'
          ? { kind: 'watts', watts: drawn.load.watts * loadFactor }
          : { kind: 'amps', amps: (drawn.load?.amps ?? 0) * loadFactor };
      return { ...drawn, load, jointOhms: i === node ? ohms : 0 };
    }),
  };
  const meterOffset = shared.meterVolts * normal();
  try {
    return solveTrunk(world).nodeVolts.map((v) => v + meterOffset);
  } catch (error) {
    if (error instanceof ElectricalError && error.code === 'supply-collapses') return null;
    throw error;
  }
}

const normalDensity = (x: number, deviation: number) =>
  Math.exp(-0.5 * (x / deviation) ** 2) / (deviation * Math.sqrt(2 * Math.PI));

describe('stage B against sampling of the nuisances and the ohms', () => {
  // Slow oracle: no linearisation, no covariance, no grid; thousands of draws for each candidate.
  it.each([
    { kind: 'amps', amps: 0.08 },
    { kind: 'watts', watts: 1.6 },
  ] as Load[])('evidence of each candidate (%p)', (load) => {
    const trunk = trunkOf(load);
    const candidates = [null, 4, 6].map((node) => ({ node, weight: 0.3 }));
    const readings = [
      { node: 0, volts: 23.2, uncertaintyVolts: 0.15 },
      { node: 3, volts: 22.4, uncertaintyVolts: 0.15 },
      { node: 7, volts: 21.6, uncertaintyVolts: 0.15 },
    ];
    const question: JointQuestion = {
      trunk,
      candidates,
      readings,
      shared,
      jointOhms,
      wrongShare: 0,
    };
    const refined = refineResistiveJoint(question);
    const normal = seededNormal(seededRandom(11));
    const draws = cases({ all: 5_000, usual: 2_500 });
    for (const { node, logLikelihood } of refined.candidates) {
      let total = 0;
      for (let i = 0; i < draws; i++) {
        const ohms = jointOhms.medianOhms * Math.exp(jointOhms.logDeviation * normal());
        const volts = drawWorld(trunk, node, ohms, normal);
        total += readings.reduce(
          (product, reading) =>
            product *
            (volts === null
              ? 1 / 36
              : normalDensity(reading.volts - volts[reading.node]!, reading.uncertaintyVolts)),
          1,
        );
      }
      // Three of the draws' own standard errors: 3 % each of 5,000, and the fixed seed stays within that with half of them.
      expect(Math.abs(logLikelihood - Math.log(total / draws))).toBeLessThan(0.1);
    }
  });
});

describe('stage B on simulated trunks', () => {
  it('states chances and ohm intervals that come true as often as stated', () => {
    const random = seededRandom(7);
    const normal = seededNormal(random);
    const trunk = trunkOf({ kind: 'amps', amps: 0.08 });
    const nodes = [null, 0, 1, 2, 3, 4, 5, 6, 7];
    const candidates = nodes.map((node) => ({ node, weight: 1 / nodes.length }));
    const rounds = cases({ all: 40, usual: 18 });
    let stated = 0;
    let right = 0;
    let inside = 0;
    let joints = 0;
    for (let i = 0; i < rounds; i++) {
      const truth = Math.floor(random() * nodes.length);
      const ohms = jointOhms.medianOhms * Math.exp(jointOhms.logDeviation * normal());
      const volts = drawWorld(trunk, nodes[truth]!, ohms, normal);
      if (volts === null) continue;
      const readings = [0, 3, 5, 7].map((node) => {
        return { node, volts: volts[node]! + 0.05 * normal(), uncertaintyVolts: 0.05 };
      });
      const question = { trunk, candidates, readings, shared, jointOhms, wrongShare: 0.01 };
      const refined = refineResistiveJoint(question).candidates;
      const best = refined.reduce((a, b) => (b.probability > a.probability ? b : a));
      stated += best.probability;
      if (best.node === nodes[truth]) right++;
      const interval = refined[truth]!.ohms;
      if (interval === null) continue;
      joints++;
      if (interval.low <= ohms && ohms <= interval.high) inside++;
    }
    // Three standard deviations of a binomial.
    expect(Math.abs(right - stated)).toBeLessThan(3 * Math.sqrt(rounds * 0.25));
    expect(right).toBeGreaterThan(rounds / 3);
    expect(Math.abs(inside - 0.9 * joints)).toBeLessThan(3 * Math.sqrt(joints * 0.09));
  });
});

describe('stage B on any drawing', () => {
  it('sums to one with finite figures, or is a typed error', () => {
    const share = fc.integer({ min: 0, max: 1000 }).map((value) => value / 1000);
    let answered = 0;
    fc.assert(
      fc.property(
        arbitraryTrunk(2),
        fc.array(fc.tuple(share, share), { maxLength: 4 }),
        fc.array(share, { minLength: 1, maxLength: 4 }),
        (trunk, read, at) => {
          const nodeAt = (where: number) => Math.floor(where * 0.999 * trunk.nodes.length);
          const question: JointQuestion = {
            trunk,
            candidates: [null, ...at.map(nodeAt)].map((node) => ({
              node,
              weight: 0.9 / (at.length + 1),
            })),
            readings: read.map(([where, volts]) => {
              return {
                node: nodeAt(where),
                volts: volts * trunk.sourceVolts,
                uncertaintyVolts: 0.01,
              };
            }),
            shared,
            jointOhms,
            wrongShare: 0.01,
          };
          try {
            const { candidates, uncovered } = refineResistiveJoint(question);
            const total = candidates.reduce((sum, { probability }) => sum + probability, uncovered);
            expect(Math.abs(total - 1)).toBeLessThan(1e-9);
            for (const { ohms } of candidates) {
              if (ohms) expect(ohms.low <= ohms.median && ohms.median <= ohms.high).toBe(true);
            }
            answered++;
          } catch (error) {
            if (!(error instanceof ElectricalError)) throw error;
          }
        },
      ),
      { seed: 17, numRuns: cases({ all: 30, usual: 10 }) },
    );
    expect(answered).toBeGreaterThan(cases({ all: 20, usual: 6 }));
  });
});
