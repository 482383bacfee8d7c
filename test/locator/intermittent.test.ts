import { describe, expect, it } from '@jest/globals';
import {
  intermittent,
  locate,
  MAX_SITTINGS,
  type PassingSpan,
  type SittingsRequest,
} from '#app/locator/index.js';
import { siteModel } from '#app/locator/sweep/site.js';
import { enumerateIntermittent, type OracleSittings } from './intermittent-oracle.js';
import type { OracleExpectation } from './oracle/request.js';

const STATION = { dead: 0.02, 'volume-down': 0.03 };
const nodeWith = (id: string, scale = 1) => ({
  id,
  junctionOut: { parted: 0.01 * scale, 'open-speech': 0.02 * scale },
  cable: { 'open-supply': 0.005 * scale, 'short-speech': 0.01 * scale },
  junctionIn: { 'open-select': 0.02 * scale, 'open-return': 0.01 * scale },
  station: STATION,
});
const said = (
  sitting: number,
  node: string,
  outcome: string,
  name = 'bell',
  informant: { id?: string; kind: string } = { kind: 'office' },
) => ({ sitting, trunk: node.charAt(0), node, function: name, outcome, informant });
const station = (id: string, fedFrom?: string | null) =>
  ({ id, kind: 'station', cableMetres: 10, fedFrom }) as const;

function expectAgreement(request: OracleSittings, expected: OracleExpectation): PassingSpan[] {
  const oracle = enumerateIntermittent(request, expected);
  const found = intermittent(request as SittingsRequest, undefined, expected);
  expect(Math.abs(found.logEvidence - oracle.logEvidence)).toBeLessThan(1e-9);
  expect(Math.abs(found.nothing / oracle.chances.nothing! - 1)).toBeLessThan(1e-9);
  const names = { 'junction-out': 'junctionOut', cable: 'cable', 'junction-in': 'junctionIn' };
  const sum = (prefix: string, suffix = '') =>
    Object.entries(oracle.chances)
      .filter(([key]) => key.startsWith(prefix) && key.endsWith(suffix))
      .reduce((total, [, chance]) => total + chance, 0);
  for (const { place, probability, components, modes } of found.spans) {
    const prefix = `${place.trunk} ${place.to} `;
    expect(Math.abs(probability / sum(prefix) - 1)).toBeLessThan(1e-9);
    for (const { component, probability: chance } of components) {
      const name = names[component as keyof typeof names];
      expect(Math.abs(chance - sum(`${prefix}${name} `))).toBeLessThan(1e-9);
    }
    for (const [mode, chance] of Object.entries(modes))
      expect(Math.abs(chance - sum(prefix, ` ${mode}`))).toBeLessThan(1e-9);
  }
  for (const { place, probability, modes } of found.parts) {
    const prefix = {
      'head-end': () => 'head-end ',
      port: () => `port ${'trunk' in place ? place.trunk : ''} `,
      station: () => (place.kind === 'station' ? `station ${place.trunk} ${place.node} ` : ''),
    }[place.kind]();
    expect([prefix, Math.abs(probability - sum(prefix)) < 1e-9]).toEqual([prefix, true]);
    for (const [mode, chance] of Object.entries(modes))
      expect(Math.abs(chance - sum(`${prefix}${mode}`))).toBeLessThan(1e-9);
  }
  expect(found.spans).toHaveLength(request.trunks.flatMap(({ nodes }) => nodes).length);
  return found.spans;
}

describe('what comes and goes agrees to nine digits with adding everything up', () => {
  it('worked, failed, worked, in a row of two', () => {
    const spans = expectAgreement(
      {
        trunks: [{ id: 'A', nodes: [station('A1'), station('A2')] }],
        exposureDays: 100,
        observations: [
          said(0, 'A1', 'works'),
          said(0, 'A2', 'works'),
          said(1, 'A1', 'works', 'room-call'),
          said(1, 'A2', 'fails'),
          said(2, 'A2', 'works'),
        ],
        begunBy: 'round',
      },
      {
        headEnd: { power: 0.02, 'bell-source': 0.03 },
        trunks: [
          { id: 'A', port: { 'no-output': 0.01 }, nodes: [nodeWith('A1'), nodeWith('A2', 2)] },
        ],
      },
    );
    expect(spans[0]?.place.to).toBe('A2');
  });

  it('a tee, people who may be confused, silence, and shorts that stay', () => {
    const mara = { id: 'mara', kind: 'office' };
    expectAgreement(
      {
        trunks: [
          { id: 'A', nodes: [station('A1', null), station('A2', 'A1'), station('A3', 'A1')] },
        ],
        exposureDays: 100,
        observations: [
          said(0, 'A2', 'fails', 'bell', mara),
          said(0, 'A3', 'works', 'talkback', mara),
          said(4, 'A2', 'works', 'bell', mara),
          said(4, 'A1', 'weak', 'lamp', { kind: 'technician' }),
        ],
        unmentioned: { reportRate: 0.3, functions: ['bell', 'lamp'], sitting: 0 },
      },
      {
        headEnd: { amplifier: 0.05 },
        trunks: [
          {
            id: 'A',
            port: { 'no-output': 0.01 },
            nodes: ['A1', 'A2', 'A3'].map((id) => ({
              id,
              junctionOut: { 'open-speech': 0.02, 'short-speech': 0.03 },
              cable: { parted: 0.01, resistive: 0.02 },
              junctionIn: { 'open-supply': 0 },
              station: { dead: 0.02, 'short-supply': 0.04 },
            })),
          },
        ],
      },
    );
  });

  it('two trunks that share the head-end and a caller', () => {
    const caller = { id: 'caller', kind: 'office' };
    expectAgreement(
      {
        trunks: [
          { id: 'A', nodes: [station('A1')] },
          { id: 'B', nodes: [station('B1')] },
        ],
        exposureDays: 100,
        observations: [
          said(0, 'A1', 'fails', 'bell', caller),
          said(0, 'B1', 'fails', 'bell', caller),
          said(1, 'A1', 'works', 'bell', caller),
          said(1, 'B1', 'fails', 'bell', { kind: 'technician' }),
        ],
      },
      {
        headEnd: { 'bell-source': 0.1 },
        trunks: [
          { id: 'A', port: {}, nodes: [nodeWith('A1')] },
          { id: 'B', port: { 'no-output': 0.1 }, nodes: [nodeWith('B1', 5)] },
        ],
      },
    );
  });

  it('three trunks, told of at different times, one never', () => {
    expectAgreement(
      {
        trunks: ['A', 'B', 'C'].map((id) => ({ id, nodes: [station(`${id}1`)] })),
        exposureDays: 100,
        observations: [
          said(0, 'A1', 'works'),
          said(1, 'B1', 'fails'),
          said(2, 'A1', 'fails'),
          said(2, 'A1', 'fails', 'room-call'),
          said(3, 'B1', 'works', 'room-call'),
          said(3, 'A1', 'works'),
        ],
        unmentioned: { reportRate: 0.2, functions: ['bell'], sitting: 3 },
      },
      {
        headEnd: { 'bell-source': 0.1, amplifier: 0.03, power: 0.01 },
        trunks: ['A', 'B', 'C'].map((id, t) => ({
          id,
          port: { 'no-output': 0.02 },
          nodes: [nodeWith(`${id}1`, 1 + t)],
        })),
      },
    );
  });
});

describe('what comes and goes', () => {
  const row = (stations: number) => [
    { id: 'A', nodes: Array.from({ length: stations }, (_, n) => station(`A${n + 1}`)) },
  ];
  const rooms = (sitting: number, outcomes: string, kind: string) =>
    [...outcomes].map((letter, n) => {
      const outcome = letter === 'x' ? 'fails' : 'works';
      return said(sitting, `A${n + 1}`, outcome, 'announcement', { kind });
    });
  const pose = (sittings: string[], kind = 'technician'): SittingsRequest => ({
    trunks: row(6),
    exposureDays: 90,
    observations: sittings.flatMap((outcomes, s) => rooms(s, outcomes, kind)) as never,
  });

  it('explains worked, failed, worked, which nothing that stays can', () => {
    const found = intermittent(pose(['......', '...xxx', '......']));
    expect(found.nothing).toBeLessThan(0.01);
    expect(found.spans[0]).toMatchObject({ place: { from: 'A3', to: 'A4' } });
    expect(found.spans[0]!.probability).toBeGreaterThan(0.95);
    // That the office misheard three rooms is not out of the question.
    const asked = pose(['......', '...xxx', '......'], 'office');
    const byOffice = intermittent({ ...asked, begunBy: 'round' });
    expect(byOffice.nothing).toBeGreaterThan(0.05);
    expect(byOffice.nothing).toBeLessThan(0.5);
    // Nobody complains of nothing, or hardly ever.
    expect(intermittent(asked).nothing).toBeLessThan(0.01);
  });

  it('all silent, all heard after a reset, all silent again: the head-end’s supply or amplifier', () => {
    const found = intermittent(pose(['xxxxxx', '......', 'xxxxxx']));
    const [first] = found.parts;
    expect(first!.place).toEqual({ kind: 'head-end' });
    expect(first!.probability).toBeGreaterThan(0.7);
    const { power = 0, amplifier = 0 } = first!.modes;
    expect((power + amplifier) / first!.probability).toBeGreaterThan(0.6);
    expect(found.spans[0]!.probability).toBeLessThan(0.2);
  });

  it('a look that finds it sound speaks half against it', () => {
    const request = pose(['xxxxxx', '......', 'xxxxxx']);
    const look = { place: { kind: 'head-end' }, part: 'amplifier', seen: 'sound' } as const;
    const amplifier = (found: ReturnType<typeof intermittent>) =>
      found.parts[0]!.modes.amplifier! / found.parts[0]!.modes.power!;
    const before = amplifier(intermittent(request));
    const after = amplifier(intermittent({ ...request, looks: [look] }));
    expect(after / before).toBeCloseTo(0.5 / 0.998, 9);
  });

  it('is not needed for what fails each time', () => {
    expect(intermittent(pose(['...xxx', '...xxx', '...xxx'])).nothing).toBeGreaterThan(0.9);
  });

  it('is as likely as its prior after one sitting of silence elsewhere, and keeps the evidence', () => {
    const request = pose(['......']);
    const found = intermittent(request);
    expect(found.nothing).toBeGreaterThan(0.95);
    const observations = request.observations.map(({ sitting: _, ...rest }) => rest);
    const { logEvidence } = locate({ ...request, observations });
    expect(Math.abs(found.logEvidence - logEvidence)).toBeLessThan(0.05);
  });

  it('needs modes: without any, nothing comes and goes', () => {
    const rates = { headEnd: {}, port: {}, station: {}, junction: {}, cablePerMetre: {} };
    const found = intermittent({ ...pose(['......', '...xxx']), rates });
    expect(found.nothing).toBe(1);
    const all = [...found.spans, ...found.parts];
    expect(all.every(({ probability }) => probability === 0)).toBe(true);
  });

  it('survives hundreds of observations that nothing explains well', () => {
    const many = Array.from({ length: 40 }, (_, s) =>
      rooms(s % 2, s % 3 ? '......' : 'xxxxxx', 'office'),
    );
    const found = intermittent({ ...pose([]), observations: many.flat() as never });
    const total = [...found.spans, ...found.parts].reduce(
      (sum, { probability }) => sum + probability,
      found.nothing,
    );
    expect(total).toBeCloseTo(1, 9);
  });

  it('refuses more sittings than it can weigh', () => {
    const request = pose(Array.from({ length: MAX_SITTINGS + 1 }, () => '......'));
    expect(() => intermittent(request)).toThrow('at most 6');
  });
});

describe('of more callers than can be swept for each set of sittings', () => {
  /** Each told of three rooms far apart, in one sitting after the other. */
  const toldBy = (callers: number, sittings: number): SittingsRequest => ({
    trunks: [
      {
        id: 'A',
        nodes: Array.from({ length: 40 }, (_, n) => station(`A${n}`, n ? `A${n - 1}` : null)),
      },
    ],
    exposureDays: 180,
    observations: Array.from({ length: 3 * callers }, (_, o) => {
      const caller = Math.floor(o / 3);
      const node = `A${(caller + 13 * (o % 3)) % 40}`;
      const informant = { id: `caller ${caller}`, kind: 'office' };
      return said(o % sittings, node, caller % 2 ? 'works' : 'fails', 'bell', informant);
    }) as SittingsRequest['observations'],
  });

  it('some count as anybody, whom the answer names', () => {
    const request = toldBy(40, 4);
    const { identitiesDropped, ...answer } = intermittent(request);
    // The sweeps of a location carry nine of them.
    const carried = siteModel({ ...request, readings: [] });
    expect(carried.flags.length).toBe(9);
    expect(identitiesDropped!.length).toBeGreaterThan(31);
    expect(identitiesDropped!.length).toBeLessThan(40);
    const observations = request.observations.map(({ informant, ...one }) =>
      identitiesDropped!.includes(informant!.id!)
        ? { ...one, informant: { kind: 'office' as const } }
        : { ...one, informant },
    );
    expect(intermittent({ ...request, observations })).toEqual(answer);
  });

  it('the fewer sittings, the more of them are somebody; a few always are', () => {
    const dropped = [2, 4, 6].map((sittings) => {
      return intermittent(toldBy(40, sittings)).identitiesDropped!.length;
    });
    expect(dropped).toEqual([...dropped].sort((a, b) => a - b));
    expect(dropped[0]).toBeLessThan(dropped[2]!);
    expect(intermittent(toldBy(3, 3))).not.toHaveProperty('identitiesDropped');
  });
});
