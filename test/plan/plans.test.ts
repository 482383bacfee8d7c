import { describe, expect, it } from '@jest/globals';
import { provenByFunction } from '#app/locator/exposure/proven-modes.js';
import {
  intermittent,
  locate,
  type LocateRequest,
  type LocateResult,
  officeChecksAboutCauses,
  type SittingsRequest,
  technicianChecks,
} from '#app/locator/index.js';
import { DEFAULT_PLAN } from '#app/plan/default-plan.js';
import { tablesOf } from '#app/plan/plan-tables.js';
import type { ErrorRates } from '#app/plan/error-rates.js';
import { InvalidPlan, type Plan } from '#app/plan/plan.js';
import { oraclePlaceName, troubleNumbers } from '../locator/cause-numbers.js';
import { largestDifference } from '../locator/compare.js';
import { enumeratePlan } from './plan-oracle.js';
import type { PlanRequest } from './plan-world.js';
import { THREE_CORES, TWO_CORES } from './other-plans.js';

const PLANS: readonly Plan[] = [DEFAULT_PLAN, TWO_CORES, THREE_CORES];

const station = (id: string, cableMetres: number, fedFrom?: string) =>
  ({ id, kind: 'station', cableMetres, ...(fedFrom && { fedFrom }) }) as const;
const saw = (node: string, name: string, outcome: string, id?: string) => ({
  node,
  function: name,
  outcome,
  ...(id && { informant: { kind: 'office' as const, id } }),
});

/** The same in the wire form. Its names are not those of the default plan, whose types the service knows. */
function wire({ nodes, observations, looks = [], ...rest }: PlanRequest): unknown {
  return {
    ...rest,
    trunks: [{ id: 'A', nodes }],
    observations: observations.map((one) => ({ trunk: 'A', ...one })),
    looks: looks.map(({ place, ...look }) => ({
      ...look,
      place: place.kind === 'head-end' ? place : { trunk: 'A', ...place },
    })),
    explanations: 5,
  };
}

function numbersOf(result: LocateResult): Record<string, number> {
  const numbers: Record<string, number> = {
    logEvidence: result.logEvidence,
    ...troubleNumbers(result.troubles),
  };
  for (const { place, probability, components } of result.places) {
    numbers[oraclePlaceName(place)] = probability;
    for (const { component, modes } of components)
      for (const [mode, chance] of Object.entries(modes))
        numbers[`${oraclePlaceName(place)} ${component} ${mode}`] = chance;
  }
  for (const { trunk, node, function: name, works } of result.predictions)
    numbers[`${name} ${trunk}/${node} works`] = works;
  for (const check of result.checks)
    if (check.kind === 'hear')
      numbers[`${check.function} ${check.trunk}/${check.node} bits`] = check.informationBits;
  return numbers;
}

function expectAgreement(plan: Plan, request: PlanRequest): LocateResult {
  const result = locate(wire(request), undefined, undefined, plan);
  const oracle = enumeratePlan(plan, request);
  const worst = largestDifference(numbersOf(result), oracle.numbers);
  expect([worst.name, worst.difference < 1e-9]).toEqual([worst.name, true]);
  expect(result.explanations?.length).toBeGreaterThan(0);
  for (const { headEnd, trunks, probability } of result.explanations ?? []) {
    const [trunk] = trunks;
    const told = trunk!.nodes.map(({ node, feed, weak, view }) => {
      const cores = (list: readonly string[]) => [...list].sort().join('+');
      return `${node}:${cores(feed)}${weak ? '~' : ''}/${cores(view)}`;
    });
    const key = [headEnd, trunk!.port, ...told].join(' ');
    expect([key, Math.abs((oracle.explanations[key] ?? 0) - probability) < 1e-9]).toEqual([
      key,
      true,
    ]);
  }
  return result;
}

describe('a plan of two cores agrees with adding up every world', () => {
  it('one room, every mode there is, parts looked at, settings of a group', () => {
    expectAgreement(TWO_CORES, {
      nodes: [{ ...station('R1', 40), groups: ['North'] }],
      exposureDays: 900,
      observations: [saw('R1', 'bell', 'fails'), saw('R1', 'announcement', 'weak', 'p')],
      looks: [
        { place: { kind: 'station', node: 'R1' }, part: 'unit', seen: 'sound' },
        { place: { kind: 'station', node: 'R1' }, part: 'muted', seen: 'faulty' },
        {
          place: { kind: 'head-end' },
          part: 'zone-off',
          group: 'North',
          seen: 'sound',
          informant: { kind: 'office' },
        },
        { place: { kind: 'port' }, part: 'fuse', seen: 'sound' },
      ],
    });
  });

  it('two rooms in a row: shorts that hide behind opens, silence that speaks', () => {
    const result = expectAgreement(TWO_CORES, {
      nodes: [station('R1', 25), station('R2', 60)],
      exposureDays: 2000,
      rates: {
        headEnd: { rectifier: 0.05, clock: 0.07 },
        station: { 'unit-dead': 0.03, 'terminals-short': 0.05 },
        junction: { severed: 0.01, 'line-shorted': 0.03 },
        cablePerMetre: { 'back-open': 5e-4, corroded: 6e-4 },
      },
      observations: [saw('R1', 'announcement', 'fails'), saw('R2', 'announcement', 'fails')],
      unmentioned: { reportRate: 0.6, functions: ['bell'] },
    });
    const [first] = result.troubles;
    const short = first?.causes.find(({ cause }) => cause.kind === 'short');
    expect(short?.probability).toBeGreaterThan(0.05);
  });

  it('a tee, one branch silent, one caller heard twice who may be confused', () => {
    expectAgreement(TWO_CORES, {
      nodes: [
        { id: 'T', kind: 'junction-box', cableMetres: 10 },
        station('R1', 20, 'T'),
        station('R2', 30, 'T'),
      ],
      exposureDays: 1200,
      rates: {
        headEnd: { mixer: 0.03 },
        station: { muted: 0.05, 'terminals-short': 0.05 },
        junction: { severed: 0.02, 'line-shorted': 0.02 },
        cablePerMetre: {},
      },
      observations: [
        saw('R1', 'announcement', 'fails', 'p'),
        saw('R2', 'announcement', 'works', 'p'),
        saw('R2', 'bell', 'works'),
      ],
    });
  });
});

describe('a plan of three cores in another order agrees with it too', () => {
  it('one room, every mode there is', () => {
    expectAgreement(THREE_CORES, {
      nodes: [station('R1', 60)],
      exposureDays: 1100,
      observations: [saw('R1', 'door-call', 'fails'), saw('R1', 'lamp', 'works', 'p')],
      looks: [{ place: { kind: 'span', from: null, to: 'R1' }, part: 'cable', seen: 'sound' }],
    });
  });

  it('two rooms, where nothing takes the call and leaves the lamp', () => {
    const { severed, 'feed-open': open } = THREE_CORES.span;
    const rates = { severed: 0.02, 'feed-open': 0.03 };
    const plan: Plan = {
      ...THREE_CORES,
      span: { severed, 'feed-open': open },
      rates: { ...THREE_CORES.rates, junction: rates, cablePerMetre: { severed: 1e-4 } },
    };
    expectAgreement(plan, {
      nodes: [station('R1', 60), station('R2', 30)],
      exposureDays: 1100,
      rates: { headEnd: { exchange: 0.06 }, station: { bulb: 0.08, 'left-out': 0.03 } },
      observations: [saw('R2', 'door-call', 'fails'), saw('R2', 'lamp', 'works', 'p')],
    });
  });

  it('two rooms in a row, a call that is silent at both while their lamps burn', () => {
    expectAgreement(THREE_CORES, {
      nodes: [station('R1', 25), station('R2', 80)],
      exposureDays: 900,
      rates: {
        headEnd: { exchange: 0.06 },
        station: { bulb: 0.08, 'left-out': 0.03 },
        junction: { 'call-open': 0.02, 'common-open': 0.01 },
        cablePerMetre: { 'feed-open': 3e-4, 'call-shorted': 4e-4 },
      },
      observations: [
        saw('R1', 'door-call', 'fails'),
        saw('R2', 'door-call', 'fails'),
        saw('R2', 'lamp', 'works'),
      ],
      unmentioned: { reportRate: 0.5, functions: ['lamp'] },
    });
  });
});

describe('what is asked next, and what comes and goes', () => {
  const asked: PlanRequest = {
    nodes: [station('R1', 25), station('R2', 60)],
    exposureDays: 2000,
    begunBy: 'round',
    rates: {
      headEnd: { rectifier: 0.05, clock: 0.07 },
      station: { muted: 0.08, 'terminals-short': 0.02 },
      junction: { severed: 0.02, 'line-shorted': 0.01 },
      cablePerMetre: { 'line-open': 5e-4, corroded: 2e-4 },
    },
    observations: [saw('R1', 'announcement', 'works'), saw('R2', 'announcement', 'fails')],
  };
  const ofPlan = { ...(wire(asked) as LocateRequest), plan: TWO_CORES as Plan };

  it('functions tell what the definition says, and take the minutes of the plan', () => {
    const { numbers } = enumeratePlan(TWO_CORES, asked);
    const checks = technicianChecks({ request: ofPlan });
    const tried = checks.flatMap((check) =>
      check.action.kind === 'function' ? [{ ...check, action: check.action }] : [],
    );
    expect(tried.length).toBeGreaterThan(2);
    for (const { action, informationBits, minutes } of tried) {
      const name: string = action.function;
      expect(informationBits).toBeCloseTo(numbers[`${name} A/${action.node} bits`]!, 9);
      expect(minutes).toBe(name === 'bell' ? 1 : 3);
    }
    expect(checks.map(({ action }) => action.kind)).toEqual(
      expect.arrayContaining(['function', 'volume-knob', 'continuity', 'open-junction']),
    );
  });

  it('the office looks at what shows on the front of this head-end', () => {
    const silent = ['R1', 'R2'].map((node) => ({ trunk: 'A', ...saw(node, 'bell', 'fails') }));
    const heard = ['R1', 'R2'].map((node) => ({
      trunk: 'A',
      ...saw(node, 'announcement', 'works'),
    }));
    const request = {
      ...ofPlan,
      begunBy: undefined,
      observations: [...silent, ...heard],
    } as LocateRequest;
    const [first] = officeChecksAboutCauses({ request });
    expect(first?.action).toEqual({ kind: 'head-end', setting: 'clock' });
    expect(first?.informationBits).toBeGreaterThan(0.01);
  });

  it('a loose contact is one of its modes', () => {
    const observations = [0, 1, 2, 3].map((sitting) => ({
      trunk: 'A',
      ...saw('R2', 'announcement', sitting % 2 ? 'works' : 'fails'),
      sitting,
    }));
    const found = intermittent({ ...ofPlan, observations } as SittingsRequest);
    expect(found.nothing).toBeLessThan(0.5);
    const modes = new Set(
      [...found.spans, ...found.parts].flatMap((one) =>
        Object.entries<number>(one.modes).flatMap(([mode, chance]) => (chance > 0 ? [mode] : [])),
      ),
    );
    expect([...modes].sort()).toEqual([
      'clock',
      'fuse',
      'line-open',
      'muted',
      'rectifier',
      'severed',
    ]);
    const all = [...found.spans, ...found.parts].reduce(
      (sum, one) => sum + one.probability,
      found.nothing,
    );
    expect(all).toBeCloseTo(1, 9);
  });

  it('what works proves the cores and modes that it used', () => {
    const [proven] = provenByFunction(tablesOf(TWO_CORES));
    expect(proven).toEqual({
      headEnd: ['rectifier', 'mixer'],
      port: ['fuse'],
      span: ['severed', 'line-open', 'back-open', 'line-shorted', 'corroded'],
      station: ['unit-dead', 'muted'],
      stationOnPath: ['terminals-short'],
    });
  });
});

describe('the default plan', () => {
  it('agrees with the same oracle, made of its value', () => {
    expectAgreement(DEFAULT_PLAN, {
      nodes: [station('R1', 40)],
      exposureDays: 700,
      rates: { headEnd: { power: 0.08, 'bell-source': 0.06 }, station: { dead: 0.02, lamp: 0.01 } },
      observations: [saw('R1', 'bell', 'fails'), saw('R1', 'lamp', 'works')],
    });
  });
});

describe('names are those of the plan', () => {
  const request = {
    nodes: [station('R1', 40)],
    exposureDays: 900,
    observations: [saw('R1', 'lamp', 'fails')],
  };

  it('of the one asked about, and no other', () => {
    expect(() => locate(wire(request), undefined, undefined, TWO_CORES)).toThrow(
      '/observations/0/function: must be one of announcement, bell',
    );
    expect(() => locate(wire({ ...request, observations: [] }))).not.toThrow();
    expect(() => locate({ ...(wire(request) as LocateRequest), plan: TWO_CORES })).toThrow(
      '/plan: unknown field',
    );
  });

  it.each<[string, Partial<Plan>, string]>([
    ['more cores than can be packed', { cores: ['line', 'back', 'a', 'b', 'c'] }, 'has 5 cores'],
    [
      'functions of which neither needs all that the other needs',
      {
        cores: ['line', 'back', 'a', 'b'],
        functions: { announcement: ['line', 'back', 'a'], bell: ['line', 'back', 'b'] },
      },
      'bell does not need all the cores that announcement needs',
    ],
    ['a function without supply', { functions: { bell: ['back'] } }, 'bell does not need line'],
    [
      'a mode that shorts what is not there',
      { span: { crossed: { shorts: 'speech' } } },
      'crossed shorts the core "speech", which the plan has not',
    ],
    [
      'a rate of a mode that is not there',
      { rates: { ...TWO_CORES.rates, port: { 'no-output': 1 } } },
      'a rate of port is of the mode "no-output", which the plan has not',
    ],
    [
      'looks that are missed more often than ever',
      { looks: { ...TWO_CORES.looks, office: { missed: 1.2, false: 0.03 } } },
      '"missed" of looks by office is no chance',
    ],
    [
      'a function that takes no time',
      { minutes: { ...TWO_CORES.minutes, technician: { announcement: 3 } } },
      'trying bell takes technician no number of minutes above 0',
    ],
    [
      'a share that is shown beyond all',
      { headEnd: { ...TWO_CORES.headEnd, clock: { disables: ['bell'], shown: 1.01 } } },
      'the share of clock that is shown is no chance',
    ],
  ])('and what cannot be computed is refused: %s', (_, change, reason) => {
    const plan: Plan = { ...TWO_CORES, ...change };
    const ask = () => locate(wire({ ...request, observations: [] }), undefined, undefined, plan);
    expect(ask).toThrow(InvalidPlan);
    expect(ask).toThrow(reason);
  });
});

describe('rows of error rates add up to 1', () => {
  const wrong = ({ errors }: Plan): [ErrorRates, string][] =>
    (['office', 'technician'] as const).flatMap((kind) => {
      const changed = (change: object) => ({ ...errors, [kind]: { ...errors[kind], ...change } });
      const rows = (['good', 'weak', 'dead'] as const).map((condition): [ErrorRates, string] => {
        const [works, weak, fails] = errors[kind][condition];
        const row = [works, weak, fails - 1e-4];
        return [changed({ [condition]: row }), `what ${kind} says of what is ${condition} adds up`];
      });
      return [
        ...rows,
        [changed({ dead: [0.5, 0.6, -0.1] }), `${kind} says of what is dead is not three chances`],
        [changed({ good: [NaN, 0.5, 0.5] }), `${kind} says of what is good is not three chances`],
        [changed({ weak: [0.5, 0.5] }), `${kind} says of what is weak is not three chances`],
        [changed({ confused: -0.01 }), `that ${kind} is confused is no chance`],
        [changed({ missed: 1.01 }), `what ${kind} misses is no chance`],
      ];
    });
  const trunks = [{ id: 'A', nodes: [station('R1', 40)] }];
  const nothing: LocateRequest = { trunks, exposureDays: 1 };

  it.each(PLANS)('those of the plan $name', (plan) => {
    expect(() => locate(nothing, undefined, undefined, { ...plan })).not.toThrow();
    for (const [errors, reason] of wrong(plan)) {
      const ask = () => locate(nothing, undefined, undefined, { ...plan, errors });
      expect(ask).toThrow(InvalidPlan);
      expect(ask).toThrow(reason);
    }
  });

  it.each(PLANS)('and those of a firm, over the plan $name, wherever they are given', (plan) => {
    const request = { trunks, exposureDays: 1, plan };
    for (const [errors, reason] of wrong(plan)) {
      const asked = [
        () => locate(nothing, errors, undefined, plan),
        () => officeChecksAboutCauses({ request, errors }),
        () => technicianChecks({ request, errors }),
        () => intermittent({ ...request, observations: [] }, errors),
      ];
      for (const ask of asked) expect(ask).toThrow(reason);
    }
  });

  it('to nine digits: decimals are rounded', () => {
    const third = 0.333333333;
    const office = { ...TWO_CORES.errors.office, weak: [third, third, third] as const };
    const errors = { ...TWO_CORES.errors, office };
    expect(() => locate(nothing, errors, undefined, TWO_CORES)).not.toThrow();
    const once = { ...office, weak: [0.3333333, 0.3333333, 0.3333333] as const };
    expect(() => locate(nothing, { ...errors, office: once }, undefined, TWO_CORES)).toThrow(
      InvalidPlan,
    );
  });
});
