import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { locate, type LocateRequest } from '#app/locator/index.js';
import { requests } from './arbitrary-requests.js';
import { accountNumbers, troubleNumbers } from './cause-numbers.js';
import { largestDifference } from './compare.js';
import { enumerateCauses } from './oracle/posterior.js';
import type { OracleRequest, Rates } from './oracle/request.js';
import { station } from './request-builders.js';
import { smallRequests } from './small-requests.js';
import { cases } from '../support/thorough.js';

function oracleTroubles(request: OracleRequest): { troubles: Rates; accounts: Rates } {
  const { troubles, accounts } = enumerateCauses(request);
  const numbers: Rates = {};
  for (const { function: name, trunk, node, causes, within } of troubles) {
    const point = `${name} ${trunk}/${node}`;
    for (const [cause, chance] of Object.entries(causes)) numbers[`${point} | ${cause}`] = chance;
    for (const [place, chance] of Object.entries(within))
      numbers[`${point} within ${place}`] = chance;
  }
  return { troubles: numbers, accounts };
}

function toRequest(request: OracleRequest) {
  return { ...request, explanations: 0 };
}

describe('causes agree with adding up every world', () => {
  it('in small requests of all kinds', () => {
    fc.assert(
      fc.property(smallRequests(), (request) => {
        const answer = locate(toRequest(request));
        const { troubles, accounts } = oracleTroubles(request);
        const worst = largestDifference(troubleNumbers(answer.troubles), troubles);
        expect([worst.name, worst.difference < 1e-9]).toEqual([worst.name, true]);
        const account = largestDifference(accountNumbers(answer), accounts);
        expect([account.name, account.difference < 1e-9]).toEqual([account.name, true]);
      }),
      { seed: 47, numRuns: cases({ all: 25, usual: 10 }) },
    );
  });
});

describe('the causes of each point add up to 1', () => {
  const expectWhole = (request: LocateRequest) => {
    for (const { causes } of locate({ ...request, explanations: 0 }).troubles) {
      expect(causes.length).toBeLessThanOrEqual(21);
      const sum = causes.reduce((total, { probability }) => total + probability, 0);
      expect(Math.abs(sum - 1)).toBeLessThan(1e-9);
    }
  };

  it('in arbitrary drawings', () => {
    fc.assert(fc.property(requests, expectWhole), {
      seed: 47,
      numRuns: cases({ all: 40, usual: 15 }),
    });
  });

  it('on 400 nodes with tees, 120 complaints of three functions, and more than 20 causes each', () => {
    const nodes = Array.from({ length: 400 }, (_, n) =>
      station(`N${n}`, 5 + (n % 7), n % 9 === 8 ? `N${Math.floor(n / 2)}` : undefined),
    );
    const observations = Array.from({ length: 120 }, (_, k) => {
      const name = ['bell', 'lamp', 'room-call'][k % 3] as 'bell';
      return { trunk: 'A', node: `N${399 - 3 * k}`, function: name, outcome: 'weak' as const };
    });
    const request: LocateRequest = { trunks: [{ id: 'A', nodes }], exposureDays: 91, observations };
    expectWhole(request);
    const { troubles } = locate({ ...request, explanations: 0 });
    expect(troubles).toHaveLength(120);
    expect(troubles.some(({ causes }) => causes.some(({ cause }) => cause.kind === 'rest'))).toBe(
      true,
    );
    // Of the points beyond fifty, only the chance of some bad joint is told.
    expect(
      troubles.filter(({ causes }) => causes.some(({ cause }) => cause.kind === 'weak-feed'))
        .length,
    ).toBeLessThanOrEqual(70);
  });
});
