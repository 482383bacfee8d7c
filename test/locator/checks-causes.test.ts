import { describe, expect, it } from '@jest/globals';
import {
  type Check,
  type CheckAction,
  InvalidLocateRequest,
  LEAST_CAUSE_BITS,
  locate,
  type LocateRequest,
  officeChecks,
  officeChecksAboutCauses,
  technicianChecks,
  technicianChecksAboutCauses,
} from '#app/locator/index.js';
import { CauseBits } from '#app/locator/checks/cause-bits.js';
import type { ChecksRequest } from '#app/locator/checks/checks-request.js';
import { enumerateCauses } from './oracle/posterior.js';
import type { OracleLook, OracleRequest } from './oracle/request.js';
import { saw, station } from './request-builders.js';

const RATES: OracleRequest['rates'] = {
  headEnd: { power: 0.1, microphone: 0.05 },
  port: { 'no-output': 0.02 },
  station: { speaker: 0.02, 'volume-down': 0.06 },
  junction: { 'open-speech': 0.02, 'short-supply': 0.01 },
  cablePerMetre: { parted: 4e-4 },
};

const ROW: OracleRequest = {
  trunks: [{ id: 'A', nodes: [station('A1', 20), station('A2', 20)] }],
  exposureDays: 365,
  rates: RATES,
  observations: [
    saw('A1', 'bell', 'works', 'caller'),
    saw('A2', 'announcement', 'fails', 'caller'),
  ],
};

/** The evidence after each outcome, straight from the text: a look, or something tried that makes no point. */
function outcomesOf(request: OracleRequest, action: CheckAction, kind: string): OracleRequest[] {
  const looked = (look: Pick<OracleLook, 'place' | 'part'>) =>
    ['sound', 'faulty'].map((seen) => {
      const own = { ...look, seen, informant: { kind } } as OracleLook;
      return { ...request, looks: [...(request.looks ?? []), own] };
    });
  switch (action.kind) {
    case 'function':
    case 'isolation':
      return ['works', 'weak', 'fails'].map((outcome) => {
        // A2 feeds nothing: the trunk stays whole.
        const disconnectedBelow = action.kind === 'isolation' ? action.node : 'A2';
        const { trunk, node, function: name } = action;
        const told = {
          trunk,
          node,
          function: name,
          outcome,
          informant: { kind },
          disconnectedBelow,
        };
        return { ...request, observations: [...request.observations!, told] };
      });
    case 'head-end':
      return looked({ place: { kind: 'head-end' }, part: action.setting });
    case 'volume-knob':
      return looked({
        place: { kind: 'station', trunk: action.trunk, node: action.node },
        part: 'volume-down',
      });
    case 'open-junction':
      return looked({
        place: { kind: 'span', trunk: action.trunk, from: action.from, to: action.to },
        part: action.component,
      });
    case 'continuity':
    case 'supply-volts':
      return [];
  }
}

/** P(evidence), and the causes of the only trouble, a short told apart by where it may be. */
function causesOf(request: OracleRequest): { evidence: number; chances: Map<string, number> } {
  const { logEvidence, troubles } = enumerateCauses(request);
  const { causes, within } = troubles[0]!;
  const sum = Object.values(within).reduce((all, chance) => all + chance, 0);
  const chances = Object.entries(causes).flatMap(([cause, chance]): [string, number][] =>
    cause.startsWith('short')
      ? Object.entries(within).map(([place, part]) => [place, (chance * part) / sum])
      : [[cause, chance]],
  );
  return { evidence: Math.exp(logEvidence), chances: new Map(chances) };
}

/** Of many checks on one evidence, this is worked out once. */
const causesBefore = new Map<OracleRequest, ReturnType<typeof causesOf>>();

function bitsOf(request: OracleRequest, outcomes: readonly OracleRequest[]): number {
  const before = causesBefore.get(request) ?? causesOf(request);
  causesBefore.set(request, before);
  return outcomes.reduce((bits, posed) => {
    const after = causesOf(posed);
    const distance = [...after.chances].reduce((sum, [cause, p]) => {
      const q = before.chances.get(cause) ?? 0;
      return p > 0 ? sum + p * Math.log2(p / q) : sum;
    }, 0);
    return bits + (after.evidence / before.evidence) * distance;
  }, 0);
}

describe('what checks tell about the causes', () => {
  it('agrees with adding up every world after each outcome', () => {
    const asked = { request: ROW as never };
    const lists = [
      ['technician', technicianChecksAboutCauses(asked, 2)],
      ['office', officeChecksAboutCauses(asked)],
    ] as const;
    const kinds = new Set<string>();
    for (const [kind, checks] of lists)
      for (const { action, informationBits } of checks) {
        if (outcomesOf(ROW, action, kind).length === 0) continue;
        kinds.add(action.kind);
        const difference = Math.abs(informationBits - bitsOf(ROW, outcomesOf(ROW, action, kind)));
        expect([action, difference < 1e-9]).toEqual([action, true]);
      }
    expect(kinds.size).toBeGreaterThan(3);
  });
});

describe('the checks of an answer', () => {
  const asked = (checks: number, request: object = ROW) =>
    locate({ ...request, checks, explanations: 0 });

  /** Nothing is lit: a short is likely, and its place is not known. */
  const DARK: OracleRequest = {
    ...ROW,
    rates: {
      headEnd: { power: 0.01 },
      station: { lamp: 0.02 },
      junction: { 'short-supply': 0.05 },
    },
    observations: [saw('A1', 'lamp', 'fails'), saw('A2', 'lamp', 'fails')],
  };

  /** The evidence after each outcome, posed by the names that the check itself gives. */
  function posedBy(request: OracleRequest, check: Check): OracleRequest[] {
    const informant = { kind: 'technician' };
    if (check.kind === 'look') {
      const { place, part } = check;
      return ['sound', 'faulty'].map((seen) => {
        return { ...request, looks: [{ place, part, seen, informant }] };
      });
    }
    if (check.kind === 'reading') {
      const { reading } = check;
      if (reading.kind === 'supply-volts') return [];
      return [true, false].map((passes) => ({ ...request, readings: [{ ...reading, passes }] }));
    }
    const { trunk, node, function: name } = check;
    // A2 feeds nothing: the trunk stays whole.
    const disconnectedBelow = check.kind === 'disconnection' ? check.disconnectedBelow : 'A2';
    return ['works', 'weak', 'fails'].map((outcome) => {
      const told = { trunk, node, function: name, outcome, informant, disconnectedBelow };
      return { ...request, observations: [...request.observations!, told] };
    });
  }

  it('are of every kind, name evidence, and tell what adding up every world after each outcome does', () => {
    const held = new Set<string>();
    for (const request of [ROW, DARK]) {
      const { checks } = asked(64, request);
      for (const check of checks) {
        expect(check.informationBits).toBeGreaterThanOrEqual(LEAST_CAUSE_BITS);
        expect(check.bitsPerMinute).toBeCloseTo(check.informationBits / check.minutes!, 12);
        const what = check.kind === 'look' ? `look ${check.place.kind}` : check.kind;
        const outcomes = held.has(what) ? [] : posedBy(request, check);
        if (outcomes.length === 0) continue;
        held.add(what);
        const difference = Math.abs(check.informationBits - bitsOf(request, outcomes));
        expect([check, difference < 1e-9]).toEqual([check, true]);
      }
      const rates = checks.map(({ bitsPerMinute }) => bitsPerMinute!);
      expect(rates).toEqual(rates.toSorted((a, b) => b - a));
    }
    const looks = ['look head-end', 'look span', 'look station'];
    expect([...held].sort()).toEqual(['disconnection', 'hear', ...looks, 'reading']);
  });

  it('are as many as were asked for, the best of them', () => {
    expect(asked(2).checks.length).toBe(2);
    expect(asked(2).checks[0]).toEqual(asked(64).checks[0]);
  });

  it('are functions alone, by what they tell of themselves, where none were asked for', () => {
    const { checks } = asked(0);
    expect(checks).toHaveLength(12);
    expect(checks.every(({ kind, minutes }) => kind === 'hear' && minutes === undefined)).toBe(
      true,
    );
    expect(locate({ ...ROW, explanations: 0 }).checks).toEqual(checks);
  });

  it('are left out, and said to be, where even one of each kind would be too much', () => {
    const rows = (count: number) => ({
      trunks: [{ id: 'A', nodes: Array.from({ length: count }, (_, n) => station(`A${n}`, 9)) }],
      exposureDays: 91,
      observations: [saw('A3', 'bell', 'fails')],
    });
    expect(asked(1, rows(120))).toMatchObject({ checks: expect.any(Array) });
    expect(() => asked(1, rows(121))).toThrow(InvalidLocateRequest);
    expect(() => asked(65)).toThrow(InvalidLocateRequest);
    expect(() => asked(-1)).toThrow(InvalidLocateRequest);
  });
});

describe('twenty rooms in a row', () => {
  const rooms = Array.from({ length: 20 }, (_, n) => `A${101 + n}`);
  const pose = (observations: ReturnType<typeof saw>[]) => ({
    request: {
      trunks: [{ id: 'A', nodes: rooms.map((id) => station(id, 9)) }],
      exposureDays: 91,
      observations,
    } as never,
  });

  it('bell heard everywhere, announcement nowhere: the office looks at the microphone, nobody goes along the line', () => {
    const asked = pose(
      rooms.flatMap((room) => [saw(room, 'bell', 'works'), saw(room, 'announcement', 'fails')]),
    );
    expect(technicianChecksAboutCauses(asked, 2)).toEqual([]);
    expect(officeChecksAboutCauses(asked).map(({ action }) => action)).toEqual([
      { kind: 'head-end', setting: 'microphone' },
    ]);
  });

  it('nothing is offered that tells less than a hundredth of a bit, and no office is sent for what is known', () => {
    const asked = pose([
      saw('A108', 'announcement', 'works'),
      saw('A109', 'announcement', 'fails'),
      saw('A110', 'announcement', 'works'),
    ]);
    const checks = technicianChecksAboutCauses(asked, 2);
    expect(checks.length).toBeGreaterThan(3);
    for (const { informationBits } of checks)
      expect(informationBits).toBeGreaterThanOrEqual(LEAST_CAUSE_BITS);
    const [first] = checks;
    expect(first!.action).toMatchObject({ node: 'A109' });
    expect(officeChecksAboutCauses(asked)[0]!.action).toMatchObject({ node: 'A109' });
  });

  it('no check tells more of the causes than of what it looks at, where there are more causes than are listed', () => {
    const asked = pose([saw('A119', 'announcement', 'fails')]);
    const causes = new CauseBits(asked);
    expect(causes.groups).toBe(1);
    const kinds = new Map<string, number>();
    for (const { action } of technicianChecks(asked)) {
      const told = kinds.get(action.kind) ?? 0;
      kinds.set(action.kind, told + 1);
      if (told === 12) continue;
      const most = causes.mostOf(action, 'technician');
      const bits = causes.of(action, 'technician')!;
      expect([action, bits > 0, bits <= most + 1e-9]).toEqual([action, true, true]);
    }
    expect([...kinds.keys()].sort()).toEqual([
      'continuity',
      'function',
      'head-end',
      'open-junction',
      'supply-volts',
      'volume-knob',
    ]);
  });

  it('of a site too large to try outcomes at, the office still looks at a setting that is likely, and at no other', () => {
    const many = Array.from({ length: 490 }, (_, n) => `A${n + 1}`);
    const told = (announcementFails: (n: number) => boolean): ChecksRequest => ({
      request: {
        trunks: [{ id: 'A', nodes: many.map((id) => station(id, 9)) }],
        exposureDays: 91,
        observations: many
          .filter((_, n) => n % 70 === 0)
          .flatMap((room, n) => [
            saw(room, 'bell', 'works'),
            saw(room, 'announcement', announcementFails(n) ? 'fails' : 'works'),
          ]) as LocateRequest['observations'],
      },
    });
    const everywhere = officeChecksAboutCauses(told(() => true));
    expect(everywhere[0]!.action).toEqual({ kind: 'head-end', setting: 'microphone' });
    const partOfIt = told((n) => n > 4);
    const checks = officeChecksAboutCauses(partOfIt);
    expect(checks).toEqual(officeChecks(partOfIt));
    expect(checks.map(({ action }) => action.kind)).not.toContain('head-end');
    expect(technicianChecksAboutCauses(partOfIt, 2)).toEqual(technicianChecks(partOfIt));
  });
});
