import { describe, expect, it } from '@jest/globals';
import { type ProbableWorld, probableWorlds } from '#app/locator/worlds/index.js';
import type { OracleRequest } from '../oracle/request.js';
import { box, saw, station } from '../request-builders.js';
import { oracleWorlds } from './world-oracle.js';

const FEW_MODES: OracleRequest['rates'] = {
  headEnd: { power: 0.08, amplifier: 0.04, receiver: 0.02 },
  station: { dead: 0.02, 'short-supply': 0.01 },
  junction: { parted: 0.02, 'open-speech': 0.01, 'short-speech': 0.01 },
  cablePerMetre: { 'open-supply': 2e-4, resistive: 1e-4 },
};

const OTHER_MODES: OracleRequest['rates'] = {
  headEnd: { 'bell-source': 0.06, microphone: 0.05 },
  station: { address: 0.02, 'short-supply': 0.02 },
  junction: { 'open-select': 0.02, 'short-supply': 0.01 },
  cablePerMetre: { 'short-select': 3e-4, 'open-return': 1e-4 },
};

const TINY: OracleRequest['rates'] = {
  headEnd: { amplifier: 0.04 },
  station: { dead: 0.02 },
  junction: { parted: 0.02, 'short-speech': 0.01 },
  cablePerMetre: { resistive: 1e-4 },
};

const pair = [station('A1', 18), station('A2', 9.5)];

function worldName({ faults }: ProbableWorld): string {
  return faults
    .map(({ place, component, mode }) => {
      if (place.kind === 'head-end') return `head-end ${mode}`;
      if (place.kind === 'port') return 'port';
      const node = place.kind === 'span' ? place.to : place.node;
      return `${place.trunk} ${node} ${component} ${mode}`;
    })
    .sort()
    .join('; ');
}

/** Every world found weighs what adding up says, and none of weight is missing but those of more than three faults. */
function expectAgreement(request: OracleRequest): void {
  const oracle = oracleWorlds(request);
  const found = probableWorlds({ ...request, begunBy: 'round' }, undefined, undefined, 1_000_000);
  expect(Math.exp(found.logEvidence) / oracle.evidence).toBeCloseTo(1, 9);
  expect(found.worlds.length).toBeGreaterThan(10);
  const names = new Set<string>();
  for (const world of found.worlds) {
    const name = worldName(world);
    names.add(name);
    const share = (oracle.worlds.get(name) ?? 0) / oracle.evidence;
    expect([name, Math.abs(world.probability - share) < 1e-9]).toEqual([name, true]);
    expect([name, Math.abs(world.probability / share - 1) < 1e-9]).toEqual([name, true]);
  }
  expect(names.size).toBe(found.worlds.length);
  let missed = 0;
  for (const [name, mass] of oracle.worlds)
    if (!names.has(name)) missed = Math.max(missed, mass / oracle.evidence);
  expect(missed).toBeLessThan(1e-4);
}

describe('worlds weigh what adding up every assignment says', () => {
  it('two stations, one silent, a caller who may be confused', () => {
    expectAgreement({
      trunks: [{ id: 'A', nodes: pair }],
      exposureDays: 180,
      rates: FEW_MODES,
      observations: [
        saw('A1', 'announcement', 'works', 'caller'),
        saw('A2', 'announcement', 'fails', 'caller'),
      ],
    });
  });

  it('rooms not mentioned, several functions, two informants', () => {
    expectAgreement({
      trunks: [{ id: 'A', nodes: pair }],
      exposureDays: 400,
      rates: FEW_MODES,
      observations: [
        saw('A1', 'bell', 'fails', 'caller'),
        saw('A1', 'lamp', 'works', 'technician'),
        saw('A1', 'talkback', 'weak', 'other'),
      ],
      unmentioned: { reportRate: 0.3, functions: ['bell', 'talkback'] },
    });
  });

  it('other modes: shorts behind opens, addresses, spare cores', () => {
    expectAgreement({
      trunks: [{ id: 'A', nodes: pair }],
      exposureDays: 300,
      rates: OTHER_MODES,
      observations: [saw('A2', 'lamp', 'fails'), saw('A1', 'bell', 'works', 'technician')],
    });
    expectAgreement({
      trunks: [{ id: 'A', nodes: pair }],
      exposureDays: 300,
      rates: OTHER_MODES,
      observations: [saw('A2', 'room-call', 'fails'), saw('A1', 'room-call', 'fails', 'caller')],
      unmentioned: { reportRate: 0.5, functions: ['lamp'] },
    });
  });

  it('a tee, with the second branch not spoken of', () => {
    expectAgreement({
      trunks: [{ id: 'A', nodes: [box('T', 30), station('A1', 4, 'T'), station('A2', 5, 'T')] }],
      exposureDays: 400,
      rates: TINY,
      observations: [saw('A1', 'bell', 'fails'), saw('A1', 'lamp', 'works')],
      unmentioned: { reportRate: 0.3, functions: ['bell'] },
    });
  });
});
