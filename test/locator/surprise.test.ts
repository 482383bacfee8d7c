import { describe, expect, it } from '@jest/globals';
import { locate, type LocateRequest, surprise } from '#app/locator/index.js';
import { seededRandom } from '#app/reports/seeded-random.js';
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

const ROOMS = 20;
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

/** A caller with a name about every other room, and a technician about six lamps; null if all of it works. */
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
  for (let node = 2; node < ROOMS; node += 3) all.push(ask({ kind: 'technician' }, node, 'lamp'));
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
    const requests = cases(1000, 1).map((evidence) => toRequest(SITE, evidence));
    const share = flagged(requests, 2) / 1000;
    console.log('own', share);
    expect(share).toBeGreaterThanOrEqual(0.003);
    expect(share).toBeLessThanOrEqual(0.02);
  });

  it('finds a drawing with its halves swapped surprising far more often', () => {
    const told = cases(300, 3).filter(
      (evidence) => evidence.filter(({ outcome }) => outcome === 'fails').length >= 3,
    );
    for (const order of [
      (n: number) => (n + ROOMS / 2) % ROOMS,
      (n: number) => ROOMS - 1 - n,
      (n: number) => (n % 2 ? n - 1 : n + 1),
      (n: number) => (n * 7) % 20,
      (n: number) => n,
    ]) {
      const share =
        flagged(
          told.map((evidence) => onDrawing(evidence, order)),
          4,
        ) / told.length;
      console.log(told.length, share);
    }
  });
});
