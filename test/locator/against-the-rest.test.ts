import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { locate } from '#app/locator/index.js';
import { oracleGiven } from './oracle/posterior.js';
import type { OracleRequest } from './oracle/request.js';
import { saw, station } from './request-builders.js';
import { smallRequests } from './small-requests.js';
import { cases } from '../support/thorough.js';

function asked(request: OracleRequest) {
  return locate({ ...request, explanations: 0 }).againstTheRest;
}

describe('what goes against the rest', () => {
  it('agrees with leaving each observation out and adding up every world again', () => {
    let told = 0;
    fc.assert(
      fc.property(smallRequests(), (request) => {
        const found = asked(request);
        const given = oracleGiven(request);
        expect(found.map(({ observation }) => observation).sort()).toEqual(
          [...given.keys()].filter((o) => given[o]! < 0.05),
        );
        for (const one of found)
          expect(Math.abs(one.given - given[one.observation]!)).toBeLessThan(1e-9);
        told += found.length;
      }),
      { seed: 48, numRuns: cases({ all: 25, usual: 10 }) },
    );
    expect(told).toBeGreaterThan(cases({ all: 10, usual: 3 }));
  });

  it('of two people who contradict each other, names both or the one whom the rest contradicts', () => {
    const request: OracleRequest = {
      trunks: [{ id: 'A', nodes: [station('A1', 9), station('A2', 9)] }],
      exposureDays: 91,
      rates: { headEnd: { 'bell-source': 0.06 }, station: { speaker: 0.006 } },
      observations: [
        saw('A1', 'bell', 'works', 'one', 'A'),
        saw('A1', 'bell', 'fails', 'two', 'A'),
        saw('A2', 'bell', 'works', 'three', 'A'),
      ],
      begunBy: 'round',
    };
    const found = asked(request);
    expect(found.map(({ observation }) => observation)).toEqual([1]);
  });
});
