import { describe, expect, it } from '@jest/globals';
import {
  type CheckAction,
  DEFAULT_ERROR_RATES,
  officeChecks,
  type RankedCheck,
  technicianChecks,
} from '#app/locator/index.js';
import {
  conditionIfIsolated,
  conditionIn,
  conditionWithVolumeUp,
  continuityOf,
  junctionIn,
  oracleBits,
  supplyIn,
  truths,
  type World,
} from './checks-oracle.js';
import type { OracleRequest } from './oracle/request.js';
import { ERRORS } from './oracle/tables.js';

const MODES: OracleRequest['rates'] = {
  headEnd: { power: 0.1, selector: 0.05, 'bell-source': 0.1 },
  station: { speaker: 0.02, 'volume-down': 0.06, 'short-supply': 0.02 },
  junction: { parted: 0.02, 'short-supply': 0.01, resistive: 0.02 },
  cablePerMetre: { 'open-speech': 4e-4, 'short-speech': 2e-4 },
};

/** Few enough for three stations. */
const FEW_MODES: OracleRequest['rates'] = {
  headEnd: { power: 0.02 },
  port: { 'no-output': 0.001 },
  station: { 'volume-down': 0.06, 'short-supply': 0.02 },
  junction: { 'open-supply': 0.02, 'short-supply': 0.01 },
  cablePerMetre: { resistive: 1e-3 },
};

const station = (id: string, fedFrom?: string | null) =>
  ({ id, kind: 'station', cableMetres: 20, fedFrom }) as const;
const saw = (
  node: string,
  name: string,
  outcome: string,
  informant?: { id?: string; kind: string },
) => {
  return { trunk: 'A', node, function: name, outcome, informant };
};
const TECHNICIAN = { kind: 'technician' };

const ROW: OracleRequest = {
  trunks: [{ id: 'A', nodes: [station('A1'), station('A2')] }],
  exposureDays: 365,
  rates: MODES,
  observations: [
    saw('A1', 'bell', 'works', { id: 'caller', kind: 'office' }),
    saw('A2', 'announcement', 'fails', { id: 'caller', kind: 'office' }),
  ],
};

/** Everything fails: a short is likely, and its place is not known. */
const SHORTED: OracleRequest = {
  trunks: [{ id: 'A', nodes: [station('A1'), station('A2'), station('A3', 'A1')] }],
  exposureDays: 365,
  rates: FEW_MODES,
  observations: ['A1', 'A2', 'A3'].map((node) => saw(node, 'lamp', 'fails', TECHNICIAN)),
};

const MINUTES = {
  function: { lamp: 2, announcement: 3, bell: 3, music: 3, 'room-call': 3, talkback: 3 },
  volumeKnob: 3,
  headEnd: 1,
  supplyVolts: 3,
  continuity: 8,
  openJunction: 6,
  isolation: 10,
};

/** Nobody knows whether it is the end of the trunk or one room. */
const TEE: OracleRequest = {
  ...SHORTED,
  observations: [saw('A1', 'music', 'works'), saw('A2', 'music', 'fails')],
};

function truthOf(action: CheckAction): (world: World) => string | [string, number][] {
  switch (action.kind) {
    case 'function':
      return (world) => conditionIn(world, action.node, action.function);
    case 'volume-knob':
      return (world) => conditionWithVolumeUp(world, action.node, action.function);
    case 'head-end':
      return ({ headEnd }) => (headEnd === action.setting ? 'wrong' : 'right');
    case 'supply-volts':
      return (world) => supplyIn(world, action.node);
    case 'continuity':
      return (world) => continuityOf(world, action.from, action.to);
    case 'open-junction':
      return (world) => junctionIn(world, action.to, action.component);
    case 'isolation':
      return (world) => conditionIfIsolated(world, action.node, action.function);
  }
}

function outcomesOf(action: CheckAction, kind: string, missed = 0.05): (truth: string) => number[] {
  switch (action.kind) {
    case 'head-end': {
      const [, , alarm] = ERRORS[kind]!.good as [number, number, number];
      const shown = action.setting === 'power' ? 1 : 0.7;
      const seen = shown * ERRORS[kind]!.dead![2]! + (1 - shown) * alarm;
      return (truth) => (truth === 'wrong' ? [1 - seen, seen] : [1 - alarm, alarm]);
    }
    case 'supply-volts':
      return (truth) =>
        ({ full: [0.99, 0.005, 0.005], weak: [0.05, 0.9, 0.05], dead: [0.005, 0.005, 0.99] })[
          truth
        ]!;
    case 'continuity':
      return (truth) => (truth === 'through' ? [0.995, 0.005] : [0.005, 0.995]);
    case 'open-junction':
      return (truth) => (truth === 'sound' ? [0.998, 0.002] : [missed, 1 - missed]);
    case 'function':
    case 'volume-knob':
    case 'isolation':
      return (truth) => ERRORS[kind]![truth]!;
  }
}

/** What several checks tell together, from the joint distribution of what they are about. */
function together(request: OracleRequest, actions: CheckAction[], kind: string): number {
  const about = actions.map(truthOf);
  const chances = truths(request, (world) => JSON.stringify(about.map((one) => one(world))));
  const outcomes = actions.map((action) => outcomesOf(action, kind));
  return oracleBits(chances, (truth) => {
    const each = (JSON.parse(truth) as string[]).map((one, i) => outcomes[i]!(one));
    return each.reduce((all, row) => all.flatMap((a) => row.map((b) => a * b)), [1]);
  });
}

const kinds = (checks: RankedCheck[]) => new Set(checks.map(({ action }) => action.kind));

describe('checks agree to nine digits with adding up every assignment', () => {
  it.each([
    ['a row where the last room is silent', ROW],
    ['a tee where everything fails', SHORTED],
  ])('each of a technician’s: %s', (_, request) => {
    const checks = technicianChecks({ request: request as never });
    expect(checks.length).toBeGreaterThan(10);
    for (const { action, informationBits } of checks)
      expect([
        action,
        Math.abs(
          informationBits -
            oracleBits(truths(request, truthOf(action)), outcomesOf(action, 'technician')),
        ),
      ]).toEqual([action, expect.closeTo(0, 9)]);
  });

  it('a joint that is opened by how often technicians miss what is there, where that is known', () => {
    const missed = 0.4;
    const { office, technician } = DEFAULT_ERROR_RATES;
    const errors = { office, technician: { ...technician, missed } };
    const opened = technicianChecks({ request: ROW as never, errors }).filter(
      ({ action }) => action.kind === 'open-junction',
    );
    expect(opened).toHaveLength(4);
    for (const { action, informationBits } of opened) {
      const rows = outcomesOf(action, 'technician', missed);
      expect(informationBits).toBeCloseTo(oracleBits(truths(ROW, truthOf(action)), rows), 9);
    }
  });

  it('of every kind', () => {
    const found = [ROW, SHORTED].flatMap((request) =>
      technicianChecks({ request: request as never }),
    );
    expect([...kinds(found)].sort()).toEqual(
      [
        'continuity',
        'function',
        'head-end',
        'isolation',
        'open-junction',
        'supply-volts',
        'volume-knob',
      ].sort(),
    );
  });

  it('continuity tells the same whatever was seen that has no part in it', () => {
    const continuity = (looks: object[]) =>
      technicianChecks({ request: { ...ROW, looks } as never }).filter(
        ({ action, informationBits }) => action.kind === 'continuity' && informationBits > 0.1,
      );
    const look = { place: { kind: 'head-end' }, part: 'selector' } as const;
    const both = (['sound', 'faulty'] as const).map((seen) => ({ ...look, seen }));
    const [before, after] = [continuity([]), continuity([...both, ...both, ...both])];
    expect(before).toHaveLength(2);
    expect(after.map(({ action }) => action)).toEqual(before.map(({ action }) => action));
    for (const [i, { informationBits }] of after.entries())
      expect(informationBits).toBeCloseTo(before[i]!.informationBits, 1);
  });

  it('several of the office together: each tells what it adds', () => {
    const asks = [
      { request: ROW },
      { request: TEE },
      // Cheap, so that they come first.
      { request: ROW, minutes: { ...MINUTES, headEnd: 0.01, volumeKnob: 0.01 } },
    ];
    const found = new Set<string>();
    for (const { request, minutes } of asks) {
      const checks = officeChecks({ request: request as never, minutes });
      const actions = checks.map(({ action }) => action);
      expect(actions.length).toBeGreaterThan(1);
      for (const kind of kinds(checks)) found.add(kind);
      actions.forEach((_, i) => {
        const sum = checks.slice(0, i + 1).reduce((bits, one) => bits + one.informationBits, 0);
        expect(sum).toBeCloseTo(together(request, actions.slice(0, i + 1), 'office'), 9);
      });
    }
    expect(found).toEqual(new Set(['function', 'volume-knob', 'head-end']));
  });

  it('chooses for the office what adds most for each minute, of all that it could be asked', () => {
    const checks = officeChecks({ request: ROW as never });
    const [first, second] = checks.map(({ action }) => action);
    const bits = together(ROW, [first!], 'office');
    const others = ['lamp', 'announcement', 'bell', 'music'].flatMap((name) =>
      ['A1', 'A2'].flatMap((node) =>
        ROW.observations!.some((one) => one.node === node && one.function === name)
          ? []
          : [{ kind: 'function', trunk: 'A', node, function: name } as CheckAction],
      ),
    );
    for (const other of others) {
      const added = together(ROW, [first!, other], 'office') - bits;
      const minutes = other.kind === 'function' && other.function === 'lamp' ? 2 : 3;
      expect(added / minutes).toBeLessThanOrEqual(checks[1]!.bitsPerMinute + 1e-9);
    }
    expect(second).toBeDefined();
  });
});
