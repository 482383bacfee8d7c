// Fault model, section 4: underflow is never told as evidence of probability 0; messages are scaled at every node, tees of
// thousands of branches included.
import { describe, expect, test } from '@jest/globals';
import { locate, type LocateResult } from '#app/locator/index.js';
import { placeName } from './compare.js';
import {
  type BranchKind,
  type Fan,
  fanLogs,
  fanRequest,
  HEAD_END_FAULTS,
  logEvidenceOf,
} from './fan-oracle.js';
import { cases, tried } from '../support/thorough.js';

const SIX = ['lamp', 'announcement', 'bell', 'music', 'room-call', 'talkback'];

function heard(count: number, outcome: string, kind = 'technician', functions = SIX): BranchKind {
  return { count, cableMetres: 12, said: functions.map((name) => [name, outcome, kind]) };
}

const silent = (count: number, cableMetres = 20): BranchKind => ({ count, cableMetres, said: [] });

function chanceOf(result: LocateResult, name: string): number {
  return result.places.find(({ place }) => placeName(place) === name)?.probability ?? NaN;
}

function headEndModes(result: LocateResult): Record<string, number> {
  const place = result.places.find((one) => one.place.kind === 'head-end');
  return place?.components[0]?.modes ?? {};
}

/** Every number of an answer is one. Not by an expectation each: there are a hundred thousand. */
function expectChances({ logEvidence, places, predictions }: LocateResult): void {
  const chances = [
    ...places.map(({ probability }) => probability),
    ...places.flatMap(({ components }) => components.flatMap((one) => Object.values(one.modes))),
    ...predictions.map(({ works }) => works),
  ];
  expect(Number.isFinite(logEvidence)).toBe(true);
  expect(chances.filter((chance) => !(chance >= 0 && chance <= 1 + 1e-9))).toEqual([]);
}

/** Nine digits of log P(evidence), the head-end's modes and one station of each kind. */
function expectFan(fan: Fan): void {
  const result = locate(fanRequest(fan));
  expectChances(result);
  const logs = fanLogs(fan);
  const whole = logEvidenceOf(logs);
  expect(Math.abs(result.logEvidence - whole)).toBeLessThan(1e-9 * Math.max(1, Math.abs(whole)));
  const modes = headEndModes(result);
  for (const mode of HEAD_END_FAULTS)
    expect(Math.abs((modes[mode] ?? 0) - Math.exp(logs[mode]! - whole))).toBeLessThan(1e-9);
  fan.kinds.forEach((kind, k) => {
    if (kind.count === 0 || kind.said.length === 0) return;
    const others = fan.kinds.map((one, i) => (i === k ? { ...one, count: one.count - 1 } : one));
    const good = { ...kind, count: 1, isGood: true };
    const ifGood = logEvidenceOf(fanLogs({ ...fan, kinds: [...others, good] }));
    const faulty = chanceOf(result, `station A K${k}-0`);
    expect(Math.abs(faulty - (1 - Math.exp(ifGood - whole)))).toBeLessThan(1e-8);
  });
}

describe.each([
  ['from the port', undefined, [1, 41, 5000, 2, 700]],
  ['off a tee', 40, [2, 41, 700, 1, 5000]],
])('a fan %s', (_, teeMetres, counts) => {
  test.each(tried(counts, 3))('of %d branches', (count) => {
    const branches = teeMetres === undefined ? count : Math.min(count, 4999);
    const half = Math.floor(branches / 2);
    const fan = { exposureDays: 365, teeMetres };
    expectFan({ ...fan, kinds: [silent(branches)] });
    const words = Math.min(half, 800);
    expectFan({
      ...fan,
      kinds: [
        heard(words, 'works'),
        heard(Math.min(half, 30), 'fails', 'office', ['bell']),
        silent(branches - words - Math.min(half, 30)),
      ],
    });
  });

  test('whose evidence is of two minds', () => {
    for (const count of tried([400, 20], 1))
      expectFan({
        exposureDays: 365,
        teeMetres,
        kinds: [heard(count, 'works'), heard(count, 'fails'), silent(1)],
      });
  });

  test('of which nobody took care for a hundred years', () => {
    for (const count of cases({ all: [20, 3000], usual: [200] }))
      expectFan({
        exposureDays: 36_525,
        teeMetres,
        kinds: [silent(count, 300), heard(Math.min(count, 100), 'works')],
      });
  });
});

test('a few stations of which very much was said', () => {
  const often = (outcome: string, words: number): BranchKind => ({
    count: 1,
    cableMetres: 10,
    said: Array.from({ length: words }, () => ['bell', outcome, 'technician'] as const),
  });
  for (const words of tried([306, 2400, 10], 2))
    for (const [first, second] of [
      ['works', 'works'],
      ['works', 'fails'],
      ['weak', 'fails'],
    ] as const)
      for (const exposureDays of [0, 91])
        expectFan({ exposureDays, kinds: [often(first, words), often(second, words)] });
});

test('tees in a row, each with a fan, keep to chances', () => {
  const nodes = Array.from({ length: 40 }, (_, t) => [
    { id: `T${t}`, kind: 'junction-box', cableMetres: 9, fedFrom: t === 0 ? null : `T${t - 1}` },
    ...Array.from({ length: 30 }, (__, s) => ({
      id: `S${t}-${s}`,
      kind: 'station',
      cableMetres: 7,
      fedFrom: `T${t}`,
    })),
  ]).flat();
  const observations = nodes
    .filter(({ kind }) => kind === 'station')
    .map(({ id }, i) => ({
      trunk: 'A',
      node: id,
      function: 'bell',
      outcome: i % 2 === 0 ? 'works' : 'fails',
      informant: { kind: 'technician' },
    }));
  for (const exposureDays of [91, 36_525])
    expectChances(
      locate({ trunks: [{ id: 'A', nodes }], exposureDays, observations, explanations: 0 }),
    );
});

test('a comb of which much is told and the rest is silent, all or quiet worlds alone', () => {
  const teeth = 800;
  const nodes = Array.from({ length: teeth }, (_, t) => [
    { id: `B${t}`, kind: 'junction-box', cableMetres: 9, fedFrom: t === 0 ? null : `B${t - 1}` },
    { id: `X${t}`, kind: 'station', cableMetres: 9, fedFrom: `B${t}` },
    { id: `Y${t}`, kind: 'station', cableMetres: 9, fedFrom: `B${t}` },
  ]).flat();
  const observations = Array.from({ length: 300 }, (_, i) => ({
    trunk: 'A',
    node: `${i % 2 === 0 ? 'X' : 'Y'}${(i * 37) % teeth}`,
    function: 'bell',
    outcome: (i * 7) % 10 < 6 ? 'works' : 'fails',
  }));
  expectChances(
    locate({
      trunks: [{ id: 'A', nodes }],
      exposureDays: 365,
      observations,
      unmentioned: { reportRate: 0.3, functions: SIX },
      explanations: 0,
    }),
  );
});
