import { locate, type LocateRequest } from '#app/locator/index.js';
import { seededRandom } from '../electrical/seeded-random.js';
import type { Faults } from './faults.js';
import { HABITS } from './habits.js';
import { modeGapBits } from './mode-score.js';
import { type PlaceChances, placeChances, type PlaceName, placesInQuestion } from './places.js';
import { expectedBits, type Hits, hits, logScoreBits } from './score.js';
import type { Random, Site } from './site.js';
import type { Told } from './tell.js';

/** One simulated case. */
export interface Case {
  /** What is really there. */
  site: Site;
  /** What the locator is given, where that differs. */
  drawing?: Site;
  /** What people said. */
  evidence: Told[];
  /** What the locator is asked. */
  request: LocateRequest;
  /** Places at which something is truly faulty. */
  truth: Set<PlaceName>;
  /** Every component's true mode, where the score of modes is wanted. */
  faults?: Faults;
  /** The posterior of who knows how the case was made, where that can be computed. */
  truePosterior?: () => PlaceChances;
  /** A place whose fault another hides. */
  hidden?: PlaceName;
}

/** Undefined: nobody noticed anything, there is no case. */
export type Draw = (random: Random) => Case | undefined;

export interface Row {
  name: string;
  sameAsModel: boolean;
  seed: number;
  cases: number;
  draw: Draw;
}

export interface Outcome {
  /** Nothing in question is truly faulty: no answer can be right. */
  falseAlarm: boolean;
  locator: Hits;
  habits: Record<keyof typeof HABITS, Hits>;
  /** Stated chances of the first three places, and whether they are faulty. */
  stated: { stated: number; cameTrue: boolean }[];
  /** Stated chance of a place whose fault cannot be seen. */
  hiddenStated?: number;
  /** Over the places in question. */
  bits: number;
  expectedBits: number;
  trueBits?: number;
  trueExpectedBits?: number;
  /** Realised less expected bits: of the first three places; of all of the site; of the modes of what is in question. */
  gapOfFirstThree: number;
  gapOfAllPlaces: number;
  gapOfModes?: number;
}

export function judge(one: Case): Outcome {
  const { site, drawing = site, request, truth } = one;
  const result = locate({ ...request, explanations: 0 });
  const chances = placeChances(drawing, result);
  const question = placesInQuestion(site, one.evidence);
  const first = [...chances].slice(0, 3);
  const told = (request.observations ?? []) as Told[];
  const habit = (name: keyof typeof HABITS) => hits(HABITS[name](drawing, told), truth);
  const score = (of: PlaceChances) => logScoreBits(of, truth, question);
  const gap = (places: PlaceName[]) =>
    logScoreBits(chances, truth, places) - expectedBits(chances, places);
  const truly = one.truePosterior?.();
  const named = first.map(([place]) => place);
  return {
    falseAlarm: ![...question].some((place) => truth.has(place)),
    locator: hits(named, truth),
    habits: {
      nearestSilentRoom: habit('nearestSilentRoom'),
      topMostAllSilentSpan: habit('topMostAllSilentSpan'),
      likeliestByRates: habit('likeliestByRates'),
    },
    stated: first.map(([place, stated]) => ({ stated, cameTrue: truth.has(place) })),
    bits: score(chances),
    expectedBits: expectedBits(chances, question),
    ...(truly && { trueBits: score(truly), trueExpectedBits: expectedBits(truly, question) }),
    ...(one.hidden !== undefined && { hiddenStated: chances.get(one.hidden) ?? 0 }),
    gapOfFirstThree: gap(named),
    gapOfAllPlaces: gap([...chances.keys()]),
    ...(one.faults && { gapOfModes: modeGapBits(site, one.faults, result, question) }),
  };
}

/** Draws until so many cases have come about; the same for the same seed. */
export function* drawCases({ seed, cases, draw }: Row): Generator<Case> {
  const random = seededRandom(seed);
  for (let drawn = 0; drawn < cases;) {
    const one = draw(random);
    if (!one) continue;
    drawn++;
    yield one;
  }
}

export function runRow(row: Row): Outcome[] {
  return [...drawCases(row)].map(judge);
}
