import { describe, expect, it } from '@jest/globals';
import { locate } from '#app/locator/index.js';
import { named } from '../compare.js';
import { bestAssignments } from './best-assignments.js';
import { CASES, EXPLAINED, networkOf } from './cases.js';
import { explanationNetwork } from './explanation-network.js';
import { checksum, COUNTED_NATS, readRecorded } from './recorded.js';
import { COMMANDS, COSTS_PER_NAT } from './run-toulbar2.js';
import { uai, uaiEvidence } from './uai.js';
import { tried } from '../../support/thorough.js';

const recorded = readRecorded();
const ELIMINATED = tried(Object.keys(CASES), 2);

// toulbar2 1.1.1 (Debian), run as recorded.json says; .ci/run runs it again (check-toulbar2.ts).
describe('toulbar2, an exact solver that knows nothing of trunks', () => {
  it('has a recorded answer for every case', () => {
    expect(Object.keys(recorded.cases)).toEqual(Object.keys(CASES));
    expect(recorded.program).toMatch(/^toulbar2 1\.1\.1/);
    expect(recorded.commands).toEqual(COMMANDS);
  });

  describe.each(Object.entries(CASES))('%s', (name, one) => {
    const said = recorded.cases[name]!;
    const network = networkOf(one);
    // Each table's cost is rounded to 1e-12.
    const rounding = network.tables.length / COSTS_PER_NAT;

    it('was given this drawing and evidence', () => {
      expect(said.input).toBe(checksum(uai(network), uaiEvidence(network)));
    });

    const answer = locate({ ...one.request, begunBy: 'round', explanations: 0 });

    it('finds the located log P(evidence)', () => {
      const { logEvidence } = answer;
      if (said.evidence.log10.length === 1)
        expect([(logEvidence / Math.LN10).toFixed(3)]).toEqual(said.evidence.log10);
      expect(Math.abs(logEvidence - said.evidence.log)).toBeLessThan(rounding);
    });

    it('finds the located chances of modes and predictions', () => {
      const numbers = named(answer);
      expect(said.asked).toHaveLength(one.asked.length);
      one.asked.forEach(([variable, value], i) => {
        const chance = Math.exp(said.asked[i]! - said.evidence.log);
        const works = numbers[`${variable} works`];
        const located = works === undefined ? numbers[`${variable} ${value}`] : 1 - works;
        expect(Math.abs(located! - chance)).toBeLessThan(1e-9);
        expect(Math.abs(located! / chance - 1)).toBeLessThan(1e-9);
      });
    });

    // This compares two that know nothing of the locator, on what both know by the input's checksum: the small ones will do.
    if (!ELIMINATED.includes(name)) return;
    it('finds the most probable assignment, and as many good ones, as elimination does', () => {
      const { logBest, distances } = bestAssignments(network, Math.max(...COUNTED_NATS) + 1e-6);
      expect(Math.abs(logBest + said.mostProbable.cost / COSTS_PER_NAT)).toBeLessThan(rounding);
      expect((-logBest).toFixed(3)).toBe(said.mostProbable.energy);
      expect(Number(Math.exp(logBest).toExponential(3))).toBe(Number(said.mostProbable.chance));
      COUNTED_NATS.forEach((nats, i) => {
        // None so near the bound that rounding decides.
        expect(distances.filter((d) => Math.abs(d - nats) < 1e-9)).toEqual([]);
        expect(distances.filter((d) => d < nats)).toHaveLength(said.counts[i]!);
      });
    });
  });

  it.each(Object.entries(EXPLAINED))('finds the best explanations of %s', (name, request) => {
    const said = recorded.explanations[name]!;
    const network = explanationNetwork(request);
    expect(said.input).toBe(checksum(uai(network)));
    const answer = locate({ ...request, begunBy: 'round', explanations: 500 });
    const logs = answer.explanations!.map(({ probability }) => Math.log(probability));
    const logBest = logs[0]! + answer.logEvidence;
    expect(Math.abs(logBest + said.cost / COSTS_PER_NAT)).toBeLessThan(1e-10);
    COUNTED_NATS.forEach((nats, i) => {
      const distances = logs.map((log) => logs[0]! - log);
      // The list goes on beyond the bound, and none is so near it that rounding decides.
      expect(distances.at(-1)).toBeGreaterThan(nats);
      expect(distances.filter((d) => Math.abs(d - nats) < 1e-9)).toEqual([]);
      expect(distances.filter((d) => d < nats)).toHaveLength(said.counts[i]!);
    });
  });
});
