import { describe, expect, it } from '@jest/globals';
import { readFileSync } from 'node:fs';
import { enumerateCauses, enumeratePosterior, oracleGiven } from './oracle/posterior.js';
import type { OracleRequest, Rates } from './oracle/request.js';

/** Requests with answers that were made elsewhere, by another enumeration of the same model. */
interface Case {
  name: string;
  request: OracleRequest;
  expected: {
    logEvidence: number;
    quiet: number;
    components: { place: string; part: string | null; modes: Rates }[];
    places: Rates;
    accounts: Rates;
    works: Rates;
    troubles: { point: string; causes: Rates; within: Rates }[];
    given: number[];
  };
}

const CASES = JSON.parse(
  readFileSync(new URL('../../test/locator/cases-2.json', import.meta.url), 'utf8'),
) as Case[];

function largestDifference(mine: Rates, theirs: Rates): number {
  const names = new Set([...Object.keys(mine), ...Object.keys(theirs)]);
  return Math.max(
    0,
    ...[...names].map((name) => Math.abs((mine[name] ?? 0) - (theirs[name] ?? 0))),
  );
}

describe('the oracle agrees with the worked requests', () => {
  it.each(CASES)('$name', ({ request, expected }) => {
    const answer = enumeratePosterior(request);
    const { troubles, accounts } = enumerateCauses(request);
    const modes: Rates = {};
    for (const { place, part, modes: chances } of expected.components)
      for (const [mode, chance] of Object.entries(chances))
        modes[`${place} ${part ?? place.split(' ')[0]!} ${mode}`] = chance;
    const works = Object.entries(answer.conditions).map(([key, { good, weak }]) => [
      key,
      good + weak,
    ]);
    expect(answer.logEvidence).toBeCloseTo(expected.logEvidence, 9);
    expect(answer.quiet).toBeCloseTo(expected.quiet, 9);
    const differences = {
      modes: largestDifference(answer.modes, modes),
      places: largestDifference(answer.places, expected.places),
      accounts: largestDifference(accounts, expected.accounts),
      works: largestDifference(Object.fromEntries(works) as Rates, expected.works),
      given: largestDifference(
        Object.fromEntries(oracleGiven(request).entries()),
        Object.fromEntries(expected.given.entries()),
      ),
    };
    for (const [what, difference] of Object.entries(differences))
      expect([what, difference < 1e-9, difference]).toEqual([what, true, difference]);
    expect(troubles.length).toBe(expected.troubles.length);
    troubles.forEach((trouble, p) => {
      const { point, causes, within } = expected.troubles[p]!;
      expect(`${trouble.function} ${trouble.trunk}/${trouble.node}`).toBe(point);
      expect(largestDifference(trouble.causes, causes)).toBeLessThan(1e-9);
      expect(largestDifference(trouble.within, within)).toBeLessThan(1e-9);
    });
  });
});
