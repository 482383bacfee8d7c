import type { PathProblem, WalkCheck, WalkProblem, World } from '#app/walk/index.js';

type Random = () => number;

/** A corridor with the head-end at spot 0 and a room at each further spot. */
function corridor(rooms: number, random: Random, metresPerMinute: number): number[][] {
  const metres = [0];
  const floors = [0];
  for (let i = 0; i < rooms; i++) {
    metres.push(metres[i]! + 4 + 16 * random());
    floors.push(floors[i]! + (random() < 0.1 ? 1 : 0));
  }
  const access = metres.map(() => (random() < 0.2 ? 3 : 0.3));
  return metres.map((from, i) =>
    metres.map((to, j) => {
      const minutes =
        Math.abs(from - to) / metresPerMinute + 0.7 * Math.abs(floors[i]! - floors[j]!);
      return i === j ? 0 : minutes + access[j]!;
    }),
  );
}

function check(
  label: string,
  spot: number,
  minutes: number,
  error: number,
  hit: (place: number) => boolean,
): WalkCheck {
  return {
    label,
    spot,
    minutes,
    outcomes: ['good', 'dead'],
    chances: (faults) => (faults.some(hit) ? [error, 1 - error] : [1 - error, error]),
  };
}

function normalised(worlds: World[]): World[] {
  const total = worlds.reduce((sum, { probability }) => sum + probability, 0);
  return worlds.map(({ faults, probability }) => ({ faults, probability: probability / total }));
}

/** Mending costs the same whatever is done before, so it is left out: it would flatter a policy. */
function place(label: string, spot: number, openMinutes: number, ownCheck?: number) {
  return { label, spot, openMinutes, mendMinutes: 0, check: ownCheck };
}

/** One fault on an unbranched trunk, checks that never err; and the same for the exact optimum. */
export function randomPath(
  rooms: number,
  random: Random,
): { walk: WalkProblem; path: PathProblem } {
  const walkMinutes = corridor(rooms, random, 20 + 50 * random());
  const startSpot = Math.floor(random() * (rooms + 1));
  const indices = Array.from({ length: rooms }, (_, i) => i);
  const places = indices.map((i) => place(`span ${i}`, i + 1, 3 + 9 * random(), i));
  const checks = indices.map((i) =>
    check(`room ${i}`, i + 1, 0.5 + 1.5 * random(), 0, (fault) => fault <= i),
  );
  const worlds = normalised(
    indices.map((i) => ({
      faults: [i],
      probability: (0.3 + random()) * (random() < 0.15 ? 5 : 1),
    })),
  );
  return {
    walk: { walkMinutes, startSpot, places, checks, worlds },
    path: {
      walkMinutes,
      startSpot,
      places: places.map((p, i) => ({ ...p, chance: worlds[i]!.probability, tellsSide: true })),
      checks: checks.map(({ spot, minutes }, upTo) => ({ spot, minutes, upTo })),
    },
  };
}

/** Every single fault and every pair, by rates; pairs are five times likelier at random. */
function upToTwo(rates: readonly number[], random: Random): World[] {
  const worlds = rates.flatMap((rate, i): World[] => [
    { faults: [i], probability: rate },
    ...rates.slice(i + 1).map((other, k) => {
      return { faults: [i, i + 1 + k], probability: rate * other * (random() < 0.5 ? 1 : 5) };
    }),
  ]);
  return normalised(worlds);
}

/** One or two faults in the spans of a trunk, checks that err in 1 to 10 of 100. */
export function randomNoisy(rooms: number, random: Random): WalkProblem {
  const walkMinutes = corridor(rooms, random, 30);
  const error = 0.01 + 0.09 * random();
  const indices = Array.from({ length: rooms }, (_, i) => i);
  const rates = indices.map(() => 0.01 + 0.1 * random());
  return {
    walkMinutes,
    startSpot: Math.floor(random() * (rooms + 1)),
    places: indices.map((i) =>
      place(`span ${i}`, i + 1, 3 + 8 * random(), random() < 0.5 ? i : undefined),
    ),
    checks: indices.map((i) =>
      check(`lamp ${i}`, i + 1, 0.5 + 1.5 * random(), error, (fault) => fault <= i),
    ),
    worlds: upToTwo(rates, random),
  };
}

/** The same with looks that miss 5 to 40 of 100 faults, and now and then see one that is none. */
export function randomMissed(rooms: number, random: Random): WalkProblem {
  const problem = randomNoisy(rooms, random);
  return {
    ...problem,
    places: problem.places.map((one) => {
      const missed = 0.05 + 0.35 * random();
      return {
        ...one,
        mendMinutes: 2 + 8 * random(),
        missedChance: () => missed,
        falseChance: 0.002,
      };
    }),
  };
}

/** The same with a station in every room that can be at fault too, and a second function. */
export function randomWithStations(rooms: number, random: Random): WalkProblem {
  const spans = randomNoisy(rooms, random);
  const indices = Array.from({ length: rooms }, (_, i) => i);
  const error = 0.005 + 0.05 * random();
  const lamps = spans.checks.map(({ spot, minutes }, i) =>
    check(`lamp ${i}`, spot, minutes, error, (fault) => fault < rooms && fault <= i),
  );
  const calls = indices.map((i) =>
    check(`call ${i}`, i + 1, 1 + random(), error, (f) => (f < rooms && f <= i) || f === rooms + i),
  );
  const rates = Array.from({ length: 2 * rooms }, () => 0.01 + 0.07 * random());
  return {
    ...spans,
    places: [
      ...spans.places,
      ...indices.map((i) => place(`station ${i}`, i + 1, 2 + 4 * random())),
    ],
    checks: [...lamps, ...calls],
    worlds: upToTwo(rates, random),
  };
}
