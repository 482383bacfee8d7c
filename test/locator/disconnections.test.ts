import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  type InvalidLocateRequest,
  locate,
  type LocateRequest,
  MAX_STATES,
  MAX_STATES_IN_A_ROW,
} from '#app/locator/index.js';
import { probableWorlds } from '#app/locator/worlds/index.js';
import { accountNumbers, troubleNumbers } from './cause-numbers.js';
import { expectAgreement, largestDifference } from './compare.js';
import { enumerateCauses, oracleGiven } from './oracle/posterior.js';
import type { OracleRequest, Rates } from './oracle/request.js';
import { box, saw, station } from './request-builders.js';
import { expectExplanations } from './explanation-agreement.js';
import { cases } from '../support/thorough.js';
import { smallRequests } from './small-requests.js';

const off = (node: string, name: string, outcome: string, below: string, who?: string) => ({
  ...saw(node, name, outcome, who),
  disconnectedBelow: below,
});

/** Shorts above all: what a disconnection is for. */
const RATES: OracleRequest['rates'] = {
  headEnd: { power: 0.02 },
  port: { 'no-output': 0.02 },
  station: { 'short-supply': 0.01 },
  junction: { 'open-speech': 0.01, 'short-speech': 0.01 },
  cablePerMetre: { resistive: 1e-4 },
};

/** Three nodes in a row or with a tee, disconnected at several of them in one request. */
const requests: fc.Arbitrary<OracleRequest> = fc
  .record({
    feeders: fc.constantFrom(['A1', 'A2'], ['A1', 'A2'], ['A1', 'A1'], [null, 'A2']),
    isBox: fc.boolean(),
    told: fc.array(
      fc.record({
        node: fc.constantFrom('A1', 'A3'),
        name: fc.constantFrom('lamp', 'announcement', 'announcement', 'room-call'),
        outcome: fc.constantFrom('works', 'weak', 'fails', 'fails'),
        below: fc.constantFrom(undefined, 'A1', 'A2'),
        who: fc.constantFrom(undefined, 'technician', 'p'),
      }),
      { minLength: 2, maxLength: 6 },
    ),
    begunBy: fc.constantFrom('complaint' as const, 'round' as const),
  })
  .map(({ feeders, isBox, told, begunBy }) => ({
    trunks: [
      {
        id: 'A',
        nodes: [
          station('A1', 9),
          isBox ? box('A2', 4, feeders[0]) : station('A2', 4, feeders[0]),
          station('A3', 12, feeders[1]),
        ],
      },
    ],
    exposureDays: 91,
    rates: RATES,
    observations: told.map(({ below, node, name, outcome, who }) =>
      below === undefined ? saw(node, name, outcome, who) : off(node, name, outcome, below, who),
    ),
    begunBy,
  }));

function expectCauses(request: OracleRequest): void {
  const answer = locate({ ...request, explanations: 0 });
  const { troubles, accounts } = enumerateCauses(request);
  const numbers: Rates = {};
  for (const { function: name, trunk, node, causes, within } of troubles) {
    const point = `${name} ${trunk}/${node}`;
    for (const [cause, chance] of Object.entries(causes)) numbers[`${point} | ${cause}`] = chance;
    for (const [place, chance] of Object.entries(within))
      numbers[`${point} within ${place}`] = chance;
  }
  expect(largestDifference(troubleNumbers(answer.troubles), numbers).difference).toBeLessThan(1e-9);
  expect(largestDifference(accountNumbers(answer), accounts).difference).toBeLessThan(1e-9);
  const given = oracleGiven(request);
  for (const one of answer.againstTheRest)
    expect(Math.abs(one.given - given[one.observation]!)).toBeLessThan(1e-9);
}

describe('what was told while a cable was off agrees with adding up every world', () => {
  it('with several disconnections of one trunk', () => {
    let several = 0;
    fc.assert(
      fc.property(requests, (request) => {
        expectAgreement(request);
        expectCauses(request);
        const cuts = request.observations!.map((one) => one.disconnectedBelow);
        if (new Set(cuts.filter(Boolean)).size > 1) several++;
      }),
      { seed: 53, numRuns: 5 },
    );
    expect(several).toBeGreaterThan(1);
  });

  it('in small requests of all kinds', () => {
    fc.assert(
      fc.property(smallRequests(), (request) => {
        expectAgreement(request);
      }),
      { seed: 53, numRuns: 4 },
    );
  });
});

/**
 * What has at most two things told with a cable off, by function and node: never more than a hundred labels, of which the
 * squares are 10,000. Of requests with three things and more one in six is over that.
 */
const underTheBound = requests.filter(({ observations = [] }) => {
  const apart = observations.filter((one) => one.disconnectedBelow !== undefined);
  return new Set(apart.map((one) => `${one.function} ${one.disconnectedBelow}`)).size <= 2;
});

describe('explanations of what was told while a cable was off', () => {
  it('agree with adding up every world', () => {
    fc.assert(
      fc.property(underTheBound, (request) => {
        expectExplanations(request, undefined, 15);
      }),
      { seed: 54, numRuns: cases({ all: 40, usual: 5 }) },
    );
  });

  it('agree in small requests of all kinds', () => {
    fc.assert(
      fc.property(smallRequests(), (request) => {
        expectExplanations(request, undefined, 15);
      }),
      { seed: 54, numRuns: cases({ all: 40, usual: 5 }) },
    );
  });
});

describe('more than a hundred labels of one trunk', () => {
  const under: OracleRequest = {
    trunks: [{ id: 'A', nodes: [station('A1', 9), station('A2', 4), station('A3', 12)] }],
    exposureDays: 91,
    rates: RATES,
    observations: [
      saw('A1', 'lamp', 'works'),
      saw('A1', 'announcement', 'fails'),
      saw('A3', 'announcement', 'fails'),
      off('A1', 'announcement', 'works', 'A1'),
      off('A3', 'room-call', 'fails', 'A2'),
    ],
  };
  const over = {
    ...under,
    observations: [...under.observations!, off('A3', 'room-call', 'fails', 'A1')],
  };

  it('are too many for explanations, which is said; all else is told as ever', () => {
    const { explanations, uncovered, explanationsLeftOut } = locate({
      ...over,
      explanations: 15,
    });
    expect({ explanations, uncovered, explanationsLeftOut }).toEqual({ explanationsLeftOut: true });
    expectAgreement(over);
  });

  it('are not come to with one thing less', () => {
    expectExplanations(under, undefined, 15);
  });
});

describe('a short is found by halving', () => {
  const ids = Array.from({ length: 20 }, (_, n) => `A${n + 1}`);
  const silent = {
    trunks: [{ id: 'A', nodes: ids.map((id) => station(id, 9)) }],
    exposureDays: 91,
    observations: ids.map((id) => saw(id, 'announcement', 'fails', 'technician')),
  } as LocateRequest;
  const halved = {
    ...silent,
    observations: [
      ...silent.observations!,
      off('A3', 'announcement', 'fails', 'A10', 'technician'),
      off('A3', 'announcement', 'works', 'A5', 'technician'),
    ],
  } as LocateRequest;

  it('it lies between the last disconnection with which it came back and the first with which not', () => {
    const { troubles } = locate({ ...halved, explanations: 0 });
    const [first] = troubles[0]!.causes;
    expect(first!.cause.kind).toBe('short');
    expect(first!.probability).toBeGreaterThan(0.9);
    const between = first!.within!.filter(({ place }) => {
      const node = place.kind === 'span' ? place.to : place.kind === 'station' ? place.node : '';
      return Number(node.slice(1)) > 5 && Number(node.slice(1)) <= 10;
    });
    expect(between.reduce((sum, { probability }) => sum + probability, 0)).toBeGreaterThan(0.9);
  });

  it('the explanations agree: places past the one, and none past the other', () => {
    const { explanations } = locate({ ...halved, explanations: 3 });
    expect(explanations).toHaveLength(3);
    for (const { likely } of explanations!) {
      const { place } = likely[0]!;
      const node = place.kind === 'span' ? place.to : place.kind === 'station' ? place.node : '';
      expect(Number(node.slice(1))).toBeGreaterThan(5);
      expect(Number(node.slice(1))).toBeLessThanOrEqual(10);
    }
  });

  it('more labels than can be summed over: no explanations, which is said', () => {
    const observations = ['A4', 'A9', 'A14', 'A18'].map((below) =>
      off('A3', 'announcement', 'fails', below),
    );
    const told = locate({ ...silent, observations });
    expect(told.explanationsLeftOut).toBe(true);
    expect([told.explanations, told.uncovered]).toEqual([undefined, undefined]);
  });

  it('no trouble and no point is made by it, and it breaks no silence', () => {
    expect(locate({ ...halved, explanations: 0 }).troubles).toHaveLength(20);
    const unmentioned = { reportRate: 0.5, functions: ['announcement' as const] };
    const only = (observations: LocateRequest['observations']) =>
      locate({ ...silent, observations, unmentioned, explanations: 0 });
    const { quiet, troubles } = only([off('A3', 'announcement', 'fails', 'A5')] as never);
    expect([quiet, troubles.length]).toEqual([1, 0]);
  });

  it('the walk’s worlds go by it', () => {
    const { worlds } = probableWorlds(halved);
    const [first] = worlds;
    const [fault] = first!.faults;
    expect(fault!.mode).toMatch(/^short-/);
    const { place } = fault!;
    const node = place.kind === 'span' ? place.to : place.kind === 'station' ? place.node : '';
    expect(Number(node.slice(1))).toBeGreaterThan(5);
    expect(Number(node.slice(1))).toBeLessThanOrEqual(10);
  });

  const SIX = ['A2', 'A3', 'A4', 'A5', 'A6', 'A7'];

  it('six nodes are carried with two functions, and say between which two it lies', () => {
    const observations = SIX.flatMap((below, i) =>
      ['lamp', 'announcement'].map((name) =>
        off('A1', name, i < 3 ? 'works' : 'fails', below, 'technician'),
      ),
    );
    const eight = ids.slice(0, 8);
    const { troubles } = locate({
      trunks: [{ id: 'A', nodes: eight.map((id) => station(id, 9)) }],
      exposureDays: 91,
      observations: [
        ...eight.map((id) => saw(id, 'announcement', 'fails', 'technician')),
        ...observations,
      ] as LocateRequest['observations'],
      explanations: 0,
    });
    const [first] = troubles[0]!.causes;
    expect(first!.cause.kind).toBe('short');
    const between = first!.within!.filter(({ place }) =>
      place.kind === 'span' ? place.to === 'A5' : 'node' in place && place.node === 'A5',
    );
    expect(between.reduce((sum, { probability }) => sum + probability, 0)).toBeGreaterThan(0.9);
  });

  it('refuses by field and reason what makes too many states, fewer where there are branches', () => {
    const errorsOf = (names: string[], trunks = silent.trunks) => {
      const observations = SIX.flatMap((below) =>
        names.map((name) => off('A1', name, 'fails', below)),
      );
      try {
        locate({ ...silent, trunks, observations });
      } catch (error) {
        return (error as InvalidLocateRequest).errors;
      }
      return [];
    };
    expect(errorsOf(['lamp', 'announcement', 'room-call'])).toEqual([
      {
        pointer: '/observations/17/disconnectedBelow',
        reason: expect.stringContaining(`more than ${MAX_STATES_IN_A_ROW} states`),
      },
    ]);
    const branched = [...silent.trunks[0]!.nodes, station('A21', 9, 'A1')];
    expect(errorsOf(['lamp', 'announcement'], [{ id: 'A', nodes: branched }])).toEqual([
      {
        pointer: '/observations/11/disconnectedBelow',
        reason: expect.stringContaining(`more than ${MAX_STATES} states`),
      },
    ]);
  });
});
