// Fault model, section 4: nobody is refused for having many callers.
import { expect, test } from '@jest/globals';
import { locate, type LocateRequest, type RequestObservation } from '#app/locator/index.js';
import { siteModel } from '#app/locator/sweep/site.js';
import { largestDifference, named } from './compare.js';
import { genericLogEvidence } from './generic-elimination.js';
import { station } from './request-builders.js';
import type { OracleRequest } from './oracle/request.js';
import { FEW_MODES } from './small-cases.js';
import { cases } from '../support/thorough.js';

const row = (count: number) =>
  Array.from({ length: count }, (_, n) => station(`A${n}`, 12, n === 0 ? null : `A${n - 1}`));

/** All others hang from the first. */
const fanOf = (count: number) =>
  Array.from({ length: count }, (_, n) => station(`A${n}`, 12, n === 0 ? null : 'A0'));

function says(id: string, node: number, fails = false, name = 'bell'): RequestObservation {
  return {
    trunk: 'A',
    node: `A${node}`,
    function: name as RequestObservation['function'],
    outcome: fails ? 'fails' : 'works',
    informant: { id, kind: 'office' },
  };
}

function request(nodes: number, observations: RequestObservation[]): LocateRequest {
  return {
    trunks: [{ id: 'A', nodes: row(nodes) }],
    exposureDays: 91,
    observations,
    explanations: 0,
  };
}

const oneRoomEach = (callers: number) =>
  request(
    3,
    Array.from({ length: callers }, (_, i) => says(`p${i}`, i % 3, i % 5 === 0)),
  );

test('four hundred callers who each spoke of one room keep their identity', () => {
  const { identitiesDropped, explanations } = locate({ ...oneRoomEach(400), explanations: 3 });
  expect(identitiesDropped).toBeUndefined();
  expect(explanations).toHaveLength(3);
  const five = { ...oneRoomEach(5), rates: FEW_MODES } as OracleRequest;
  expect(
    Math.abs(locate({ ...five, begunBy: 'round' }).logEvidence - genericLogEvidence(five)),
  ).toBeLessThan(1e-9);
});

test('callers who spoke of neighbours are carried only between these', () => {
  const told = Array.from({ length: 300 }, (_, i) => [says(`p${i}`, i), says(`p${i}`, i + 1)]);
  expect(locate(request(301, told.flat())).identitiesDropped).toBeUndefined();
});

test('of thirteen who straddle one stretch, the three with the fewest words lose their identity', () => {
  const ends = (id: string, words: number) =>
    Array.from({ length: words }, (_, w) => says(id, w % 2 === 0 ? 0 : 9, w % 2 === 1));
  const ids = Array.from({ length: 13 }, (_, i) => `p${String(i).padStart(2, '0')}`);
  // The first has two words, the next three, and so on; the last two as few as the first.
  const told = ids.map((id, i) => ends(id, i > 10 ? 2 : i + 2));
  const answer = locate(request(10, told.flat()));
  expect(answer.identitiesDropped).toEqual(['p00', 'p11', 'p12']);
  const anonymous = told
    .flat()
    .map(({ informant, ...one }) =>
      answer.identitiesDropped?.includes(informant?.id ?? '') ? one : { ...one, informant },
    );
  const same = locate(request(10, anonymous));
  expect(same.identitiesDropped).toBeUndefined();
  expect(largestDifference(named(answer), named(same)).difference).toBe(0);
});

test('many callers, each of two distant rooms, in a long row and on 60 trunks', () => {
  const { callers, rooms } = cases({
    all: { callers: 2500, rooms: 2000 },
    usual: { callers: 300, rooms: 200 },
  });
  const told = Array.from({ length: callers }, (_, i) => [
    says(`p${i}`, i % (0.45 * rooms), i % 2 === 0),
    says(`p${i}`, rooms - 1 - (i % (0.4 * rooms))),
  ]).flat();
  const answer = locate(request(rooms, told));
  expect(answer.identitiesDropped?.length).toBeGreaterThan(0.8 * callers);
  const trunks = Array.from({ length: 60 }, (_, t) => ({ id: `T${t}`, nodes: row(6) }));
  const spread = told.map((one, i) => ({ ...one, trunk: `T${(i * 7) % 60}`, node: `A${i % 6}` }));
  const across = locate({ trunks, exposureDays: 91, observations: spread, explanations: 0 });
  expect(across.identitiesDropped?.length).toBeGreaterThan(0.8 * callers);
  expect(Number.isFinite(across.logEvidence)).toBe(true);
});

test('of callers who told of several rooms off one tee, as many are somebody as its spans can be joined with', () => {
  const rooms = 81;
  const told = Array.from({ length: 40 }, (_, i) =>
    [0, 27, 54].map((far) => says(`p${i}`, 1 + ((i + far) % (rooms - 1)), i % 2 === 0)),
  ).flat();
  const fan = { ...request(0, told), trunks: [{ id: 'A', nodes: fanOf(rooms) }] };
  const { flags, trunks, headEnd } = siteModel(fan);
  const open = trunks[0]!.plan.nodeFlags[0]!.length;
  const tables = (callers: number) => (headEnd.count << callers) * ((rooms - 1) / 2);
  // All ten that may straddle a place would take eight times as much and more.
  expect(tables(open)).toBeLessThan(40_000);
  expect(tables(10)).toBeGreaterThan(3 * 40_000);
  expect(open).toBeGreaterThan(3);
  expect(flags).toHaveLength(open);
  expect(locate(fan).identitiesDropped).toHaveLength(40 - open);
});
