import { describe, expect, it } from '@jest/globals';
import { type LocateRequest, surprise } from '#app/locator/index.js';
import { seededRandom } from '#app/statistics/seeded-random.js';
import { oracleEvidence } from './oracle/posterior.js';
import { drawFaults, MODEL_RATES } from '../accuracy/faults.js';
import { toRequest } from '../accuracy/places.js';
import type { Random, Site } from '../accuracy/site.js';
import {
  CHANCE_OF_CONFUSION,
  drawOutcome,
  type Person,
  told,
  type Told,
} from '../accuracy/tell.js';
import { type FunctionName, trueConditions } from '../accuracy/true-conditions.js';

// The evidence comes from the accuracy tests' simulator, which shares nothing with the locator's own.

const ROOMS = 10;
const SITE: Site = {
  exposureDays: 180,
  trunks: [
    {
      id: 'A',
      nodes: Array.from({ length: ROOMS }, (_, n) => {
        return { id: `A${n + 1}`, kind: 'station', feeder: n - 1, cableMetres: 12 };
      }),
    },
  ],
};

/** A lamp lit behind rooms without supply, and a room that cannot be told from the last by its caller. */
const CONTRADICTION = {
  trunks: [
    {
      id: 'A',
      nodes: ['A1', 'A2', 'A3'].map((id) => ({ id, kind: 'station' as const, cableMetres: 12 })),
    },
  ],
  exposureDays: 180,
  rates: { station: { lamp: 0.01 }, junction: { parted: 0.02 }, cablePerMetre: {} },
  observations: [
    ['A1', 'lamp', 'fails', 'technician'],
    ['A2', 'bell', 'fails', 'technician'],
    ['A3', 'bell', 'works', 'technician'],
    ['A3', 'lamp', 'fails', 'caller'],
    ['A1', 'bell', 'weak', 'caller'],
  ].map(([node, name, outcome, who]) => ({
    trunk: 'A',
    node: node!,
    function: name!,
    outcome: outcome!,
    informant: who === 'caller' ? { id: who, kind: 'office' } : { kind: who! },
  })),
};

/** A caller with a name about every other room, and a technician about the lamps there; null if all of it works. */
function drawTold(random: Random): Told[] | null {
  const conditionAt = trueConditions(SITE, drawFaults(SITE, MODEL_RATES, random));
  const caller: Person = {
    kind: 'office',
    id: 'caller',
    confused: random() < CHANCE_OF_CONFUSION,
  };
  const ask = (person: Person, node: number, name: FunctionName) =>
    told(
      SITE,
      { trunk: 0, node },
      name,
      drawOutcome(person, conditionAt(0, node, name), random),
      person,
    );
  const all: Told[] = [];
  for (let node = 1; node < ROOMS; node += 2) all.push(ask(caller, node, 'announcement'));
  for (let node = 0; node < ROOMS; node += 2) all.push(ask({ kind: 'technician' }, node, 'lamp'));
  return all.every(({ outcome }) => outcome === 'works') ? null : all;
}

function cases(count: number, seed: number): Told[][] {
  const random = seededRandom(seed);
  const drawn: Told[][] = [];
  while (drawn.length < count) {
    const one = drawTold(random);
    if (one) drawn.push(one);
  }
  return drawn;
}

/** The same words on a drawing with its rooms in another order. */
function onDrawing(evidence: Told[], orderOf: (node: number) => number): LocateRequest {
  const nodes = SITE.trunks[0]!.nodes.map((node, n) => {
    return { ...node, id: `A${orderOf(n) + 1}` };
  });
  return toRequest({ ...SITE, trunks: [{ id: 'A', nodes }] }, evidence);
}

function flagged(requests: LocateRequest[], seed: number): number {
  const random = seededRandom(seed);
  return requests.filter((request) => surprise(request, random)!.drawingMayBeWrong).length;
}

describe('surprise', () => {
  it('finds about one in a hundred of the model’s own cases surprising', () => {
    const requests = cases(120, 1).map((evidence) => toRequest(SITE, evidence));
    const found = flagged(requests, 2);
    // One is to be expected; more than five would come less than once in a hundred times.
    expect(found).toBeLessThanOrEqual(5);
  });

  it('finds a drawing with its halves swapped surprising far more often', () => {
    const silent = ({ outcome }: Told) => outcome === 'fails';
    const evidence = cases(80, 3).filter((one) => one.filter(silent).length >= 3);
    const right = evidence.map((one) => toRequest(SITE, one));
    const swapped = evidence.map((one) => onDrawing(one, (n) => (n + ROOMS / 2) % ROOMS));
    expect(evidence.length).toBeGreaterThan(20);
    const found = flagged(swapped, 4);
    expect(found).toBeGreaterThan(5 * flagged(right, 4));
    expect(found / evidence.length).toBeGreaterThan(0.1);
  });

  it('names first what goes least with the rest, as adding up every assignment has it', () => {
    const answer = surprise(CONTRADICTION as LocateRequest, seededRandom(5))!;
    expect(answer).toMatchObject({ drawingMayBeWrong: true, simulated: 299 });
    const { observations } = CONTRADICTION;
    const round = { ...CONTRADICTION, begunBy: 'round' as const };
    const all = oracleEvidence(round);
    const logChances = answer.mostSurprising.map(({ observation, logChance }) => {
      const rest = observations.filter((_, o) => o !== observation);
      const without = oracleEvidence({ ...round, observations: rest });
      expect(logChance).toBeCloseTo(Math.log(all / without), 9);
      return logChance;
    });
    expect(logChances).toHaveLength(observations.length);
    expect(logChances).toEqual([...logChances].sort((a, b) => a - b));
  });

  it('is the same for the same generator, and nothing where nothing fails', () => {
    const request = CONTRADICTION as LocateRequest;
    expect(surprise(request, seededRandom(5))).toEqual(surprise(request, seededRandom(5)));
    const observations = request.observations!.map((one) => ({
      ...one,
      outcome: 'works' as const,
    }));
    expect(surprise({ ...request, observations }, seededRandom(5))).toBeNull();
  });

  describe('of many callers who contradict each other', () => {
    /** Each of some callers of three rooms far apart; every second one says that all works there. */
    const toldBy = (callers: number): LocateRequest => ({
      trunks: [
        {
          id: 'A',
          nodes: Array.from({ length: 24 }, (_, n) => ({
            id: `A${n + 1}`,
            kind: 'station' as const,
            cableMetres: 12,
          })),
        },
      ],
      exposureDays: 180,
      observations: Array.from({ length: 3 * callers }, (_, o) => ({
        trunk: 'A',
        node: `A${1 + ((Math.floor(o / 3) + 8 * (o % 3)) % 24)}`,
        function: 'bell',
        outcome: Math.floor(o / 3) % 2 === 0 ? ('fails' as const) : ('works' as const),
        informant: { id: `caller ${Math.floor(o / 3)}`, kind: 'office' },
      })),
    });

    it('judges a few as somebody', () => {
      expect(surprise(toldBy(3), seededRandom(5))).not.toHaveProperty('identitiesDropped');
    });

    it('judges as many as somebody as can be swept so often, and names the others, who count as anybody', () => {
      const request = toldBy(40);
      const { identitiesDropped, ...answer } = surprise(request, seededRandom(5))!;
      // The locator itself carries ten, and leaves thirty.
      expect(identitiesDropped!.length).toBeGreaterThan(30);
      expect(identitiesDropped!.length).toBeLessThan(40);
      const observations = request.observations!.map(({ informant, ...said }) => {
        const isDropped = identitiesDropped!.includes(informant!.id!);
        return { ...said, informant: isDropped ? { kind: 'office' as const } : informant };
      });
      expect(surprise({ ...request, observations }, seededRandom(5))).toEqual(answer);
    });
  });
});
