import { describe, expect, it } from '@jest/globals';
import { locate } from '#app/locator/index.js';
import { expectAgreement } from './compare.js';
import type { OracleRequest } from './oracle/request.js';
import { box, saw, station } from './request-builders.js';
import { FEW_MODES, FEWEST_MODES, SMALL_CASES } from './small-cases.js';

describe('agrees to nine digits with adding up every assignment', () => {
  it.each(SMALL_CASES)('%s', (_, request) => {
    expectAgreement(request);
  });

  it('informants who may be confused: at one room, along one trunk, over several trunks', () => {
    expectAgreement({
      trunks: [
        { id: 'B', nodes: [station('B1', 12), station('B2', 8)] },
        { id: 'A', nodes: [box('T', 5), station('A1', 4, 'T'), station('A2', 5, 'T')] },
        { id: 'C', nodes: [station('C1', 60)] },
      ],
      exposureDays: 365,
      rates: FEWEST_MODES,
      observations: [
        saw('A1', 'lamp', 'fails', 'p'),
        saw('B1', 'lamp', 'works', 'p', 'B'),
        saw('B2', 'bell', 'fails', 'p', 'B'),
        saw('A1', 'bell', 'fails', 'q'),
        saw('A2', 'bell', 'works', 'q'),
        saw('A2', 'bell', 'fails', 'r'),
        saw('A2', 'lamp', 'fails', 'r'),
        saw('C1', 'talkback', 'fails', 's', 'C'),
        saw('B2', 'talkback', 'works', 's', 'B'),
        saw('C1', 'announcement', 'weak', 'technician', 'C'),
      ],
    });
  });

  it('everything off in two trunks: the head-end', () => {
    const request: OracleRequest = {
      trunks: [
        { id: 'A', nodes: [station('A1', 18), station('A2', 9)] },
        { id: 'B', nodes: [station('B1', 40)] },
      ],
      exposureDays: 91,
      rates: FEW_MODES,
      observations: [
        saw('A1', 'bell', 'fails'),
        saw('A2', 'bell', 'fails'),
        saw('B1', 'bell', 'fails', undefined, 'B'),
        saw('B1', 'lamp', 'works', undefined, 'B'),
      ],
    };
    expectAgreement(request);
    expect(locate(request).places[0]?.place).toEqual({ kind: 'head-end' });
  });

  it('no exposure: nothing can be faulty, and the evidence is a mistake of the informants', () => {
    expectAgreement({
      trunks: [{ id: 'A', nodes: [station('A1', 18), station('A2', 0)] }],
      exposureDays: 0,
      rates: FEW_MODES,
      observations: [saw('A2', 'bell', 'fails'), saw('A1', 'lamp', 'weak')],
    });
  });

  it('rates a thousand times lower keep their digits', () => {
    expectAgreement({
      trunks: [{ id: 'A', nodes: [station('A1', 18), station('A2', 9)] }],
      exposureDays: 0.05,
      rates: FEW_MODES,
      observations: [saw('A2', 'bell', 'fails'), saw('A1', 'bell', 'works')],
    });
  });
});
