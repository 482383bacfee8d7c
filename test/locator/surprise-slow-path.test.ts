// The judgement of a drawing takes short ways: simulated evidence that is surely likelier is not summed, and one sweep down
// tells of every observation what the rest says of it. Beside it the long way: everything summed from the beginning.
import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  DEFAULT_ERROR_RATES,
  type ErrorRates,
  InvalidLocateRequest,
  locate,
  type LocateRequest,
  type Surprise,
  surprise,
} from '#app/locator/index.js';
import { drawEvidence } from '#app/locator/surprise/draw-evidence.js';
import { withoutIdentities } from '#app/locator/sweep/identities.js';
import { siteModel, type SiteModel } from '#app/locator/sweep/site.js';
import type { StatementsOfOne } from '#app/locator/sweep/statements.js';
import { logEvidenceOf } from '#app/locator/sweep/sweep-site.js';
import { trunkLikelihood } from '#app/locator/sweep/trunk-model.js';
import { seededRandom } from '#app/statistics/seeded-random.js';

import { readingsOf, requests } from './arbitrary-requests.js';
import { cases } from '../support/thorough.js';

const SIMULATIONS = 299;
const ENOUGH = 3;

/** A technician who never errs: what is told then rules worlds out that nothing else speaks against. */
const NEVER_WRONG: ErrorRates = {
  ...DEFAULT_ERROR_RATES,
  technician: { ...DEFAULT_ERROR_RATES.technician, good: [1, 0, 0], dead: [0, 0, 1] },
};

function summedAgain(site: SiteModel, keep: (observation: number) => boolean): number {
  const told = (heard: readonly StatementsOfOne[]) =>
    heard.map((ofOne) => {
      const items = ofOne.items.filter(({ observation }) => observation < 0 || keep(observation));
      return { ...ofOne, items, ifConfused: 3 ** -items.length };
    });
  const trunks = site.trunks.map((trunk) => {
    const statements = trunk.statements.map(told);
    const likelihood = trunkLikelihood({ ...trunk, statements }, site.headEnd);
    return { ...trunk, statements, likelihood };
  });
  return logEvidenceOf({ ...site, trunks });
}

type Judged = Pick<Surprise, 'share' | 'simulated' | 'drawingMayBeWrong'> & {
  /** By observation. */
  logChances: number[];
};

function judgedSlowly(request: LocateRequest, seed: number, errors: ErrorRates): Judged {
  const site = siteModel({ ...request, looks: [] }, errors);
  const logEvidence = logEvidenceOf(site);
  const random = seededRandom(seed);
  let [simulated, asUnlikely] = [0, 0];
  while (simulated < SIMULATIONS && asUnlikely < ENOUGH) {
    const drawn = drawEvidence(site, random);
    if (drawn === null) continue;
    simulated++;
    const log = logEvidenceOf(drawn.site());
    expect(drawn.leastLog).toBeLessThan(log + 1e-9);
    if (log <= logEvidence + 1e-9) asUnlikely++;
  }
  const drawingMayBeWrong = asUnlikely < ENOUGH;
  const logChances = (request.observations ?? []).map(
    (_, o) => logEvidence - summedAgain(site, (one) => one !== o),
  );
  return { simulated, share: asUnlikely / simulated, drawingMayBeWrong, logChances };
}

/** In whole days and metres: what is simulated of 1e-300 of a day has sums that leave the range of doubles. */
const inWhole = requests.map((request) => ({
  ...request,
  trunks: request.trunks.map(({ id, nodes }) => ({
    id,
    nodes: nodes.map(({ cableMetres, exposureDays, ...node }) => ({
      ...node,
      cableMetres: Math.round(cableMetres),
      exposureDays: exposureDays === undefined ? undefined : Math.round(exposureDays),
    })),
  })),
}));

const judgeable = ({ observations = [], exposureDays }: LocateRequest) =>
  exposureDays > 30 && observations.some(({ outcome }) => outcome !== 'works');

/** Compares them, and says of how many observations. */
function compared(request: LocateRequest, seed: number, errors: ErrorRates): number {
  const found = surprise(request, seededRandom(seed), errors)!;
  const posed = withoutIdentities(request, found.identitiesDropped ?? []);
  const { logChances, ...judged } = judgedSlowly(posed, seed, errors);
  expect(found).toMatchObject(judged);
  if (!judged.drawingMayBeWrong) return 0;
  expect(found.mostSurprising).toHaveLength(logChances.length);
  for (const [i, { observation, logChance }] of found.mostSurprising.entries()) {
    expect(Math.abs(logChance - logChances[observation]!)).toBeLessThan(1e-9);
    const before = found.mostSurprising[i - 1]?.logChance ?? -Infinity;
    expect(logChance).toBeGreaterThan(before - 1e-9);
  }
  return logChances.length;
}

/** A request takes a second where it is judged to the end: it is told as it was found. */
const RUNS = { seed: 26, endOnFailure: true, numRuns: cases({ all: 60, usual: 12 }) };

test.each([
  ['the usual errors', DEFAULT_ERROR_RATES],
  ['a technician who never errs', NEVER_WRONG],
])('judges, and leaves out each observation, as summing everything again does: %s', (_, errors) => {
  let leftOut = 0;
  fc.assert(
    fc.property(inWhole.filter(judgeable), fc.nat(100), (request, seed) => {
      fc.pre(logEvidenceOf(siteModel(request, errors)) > -Infinity);
      leftOut += compared(request, seed, errors);
    }),
    RUNS,
  );
  expect(leftOut).toBeGreaterThan(10);
});

/** Not every reading tells something of its trunk. */
function isTaken(request: LocateRequest): boolean {
  try {
    locate(request);
    return true;
  } catch (error) {
    if (error instanceof InvalidLocateRequest) return false;
    throw error;
  }
}

test('does so beside readings, which are not simulated', () => {
  const read = inWhole
    .filter(judgeable)
    .chain((request) => readingsOf(request.trunks).map((told) => ({ ...request, ...told })));
  let leftOut = 0;
  fc.assert(
    fc.property(read, fc.nat(100), (request, seed) => {
      fc.pre(request.readings.length > 0 && isTaken(request));
      leftOut += compared(request, seed, DEFAULT_ERROR_RATES);
    }),
    { ...RUNS, numRuns: cases({ all: 30, usual: 6 }) },
  );
  expect(leftOut).toBeGreaterThan(5);
});

test('what was drawn is all there is where nothing breaks and nobody is confused', () => {
  let drawn = 0;
  fc.assert(
    fc.property(inWhole, fc.nat(100), ({ trunks, observations = [], unmentioned }, seed) => {
      const site = siteModel({
        trunks: trunks.map(({ id, nodes }) => ({
          id,
          nodes: nodes.map(({ exposureDays: _, ...node }) => node),
        })),
        observations: observations.map((one) => ({ ...one, informant: { kind: 'technician' } })),
        unmentioned,
        exposureDays: 0,
      });
      const random = seededRandom(seed);
      for (let draw = 0; draw < 50; draw++) {
        const evidence = drawEvidence(site, random);
        if (evidence === null) continue;
        expect(Math.abs(evidence.leastLog - logEvidenceOf(evidence.site()))).toBeLessThan(1e-9);
        drawn++;
      }
    }),
    RUNS,
  );
  expect(drawn).toBeGreaterThan(20);
});
