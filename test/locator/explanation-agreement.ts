import { trunkKey } from './alike-assignments.js';
import { expect } from '@jest/globals';
import { locate, type LocateRequest } from '#app/locator/index.js';
import { placeName } from './compare.js';
import { enumerateExplanations, LEAST, type OracleExplanation } from './explanation-oracle.js';
import { priorPlaces } from './oracle/posterior.js';
import type { OracleExpectation, OracleRequest } from './oracle/request.js';
import { cases } from '../support/thorough.js';

export function named(
  found: NonNullable<ReturnType<typeof locate>['explanations']>[number],
): string {
  const trunks = found.trunks.map(({ trunk, port, nodes }) => trunkKey(trunk, port, nodes));
  return [found.headEnd, ...trunks].join(' | ');
}

/** Places that an explanation is to name, by the documented rule, with the oracle's numbers. */
function likelyOf(
  { places }: OracleExplanation,
  priors: Record<string, number>,
): Map<string, number> {
  const odds = (p: number) => p / (1 - p);
  const named = Object.entries(places()).filter(([place, p]) => {
    const prior = priors[place.replace(/^(\S+ \S+) /, '$1/')] ?? 0;
    return p >= 0.001 && (p >= 1 || odds(p) >= 2 * odds(prior));
  });
  return new Map(named.sort(([, a], [, b]) => b - a));
}

/** There is a list of explanations, and it agrees to nine digits with adding up every assignment. */
export function expectExplanations(
  request: OracleRequest,
  expected?: OracleExpectation,
  count = cases({ all: 40, usual: 15 }),
): void {
  const oracle = enumerateExplanations(request, expected, count);
  const priors = priorPlaces(request, expected);
  const asked = { ...(request as LocateRequest), explanations: count };
  const answer = locate(asked, undefined, expected);
  expect(answer.explanationsLeftOut).toBeUndefined();
  const { explanations: all, uncovered } = answer as Required<typeof answer>;
  const explanations = all.filter(({ probability }) => probability > 10 * LEAST);
  const worth = oracle.filter(({ probability }) => probability > 10 * LEAST);
  expect(explanations).toHaveLength(Math.min(count, worth.length));
  const byKey = new Map(oracle.map((one) => [one.key, one]));
  expect(new Set(explanations.map(named)).size).toBe(explanations.length);
  explanations.forEach((found, i) => {
    const one = byKey.get(named(found))!;
    expect([i, found.probability / one.probability]).toEqual([i, expect.closeTo(1, 9)]);
    // In order: as probable as the oracle's explanation of the same rank.
    expect([i, found.probability / oracle[i]!.probability]).toEqual([i, expect.closeTo(1, 9)]);
    const likely = likelyOf(one, priors);
    const names = found.likely.map(({ place }) => placeName(place));
    expect(names).toHaveLength(Math.min(12, likely.size));
    found.likely.forEach(({ probability }, p) => {
      expect(Math.abs(probability - (likely.get(names[p]!) ?? NaN))).toBeLessThan(1e-9);
      expect(Math.abs(probability - [...likely.values()][p]!)).toBeLessThan(1e-9);
    });
  });
  const listed = worth.length < count ? all : oracle.slice(0, count);
  const covered = listed.reduce((sum, { probability }) => sum + probability, 0);
  expect(Math.abs(uncovered - (1 - covered))).toBeLessThan(1e-9);
}
