import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { locate } from '#app/locator/index.js';
import { accountNumbers, troubleNumbers } from './cause-numbers.js';
import { largestDifference } from './compare.js';
import { enumeratePosterior } from './oracle/posterior.js';
import type { OracleRequest, Rates } from './oracle/request.js';
import { smallRequests } from './small-requests.js';

function oracleTroubles(request: OracleRequest): { troubles: Rates; accounts: Rates } {
  const { troubles, accounts } = enumeratePosterior(request);
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
      fc.property(smallRequests({ without: ['disconnected'] }), (request) => {
        const answer = locate(toRequest(request));
        const { troubles, accounts } = oracleTroubles(request);
        const worst = largestDifference(troubleNumbers(answer.troubles), troubles);
        expect([worst.name, worst.difference < 1e-9]).toEqual([worst.name, true]);
        const account = largestDifference(accountNumbers(answer), accounts);
        expect([account.name, account.difference < 1e-9]).toEqual([account.name, true]);
      }),
      { seed: 47, numRuns: 40 },
    );
  });
});
