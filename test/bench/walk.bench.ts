import { locate } from '#app/locator/index.js';
import { planTicketWalk } from '#app/walks/plan-ticket-walk.js';
import { pathOptimum, prepareWalk, rollout } from '#app/walk/index.js';
import type { WalkProblem } from '#app/walk/index.js';
import { seededRandom } from '../electrical/seeded-random.js';
import { exhaustiveOptimum } from '../walk/exhaustive-optimum.js';
import { policyMinutes, type Policy } from '../walk/policy-minutes.js';
import { randomMissed, randomNoisy, randomPath, randomWithStations } from '../walk/random-walks.js';
import { fixedLoopMilliseconds, processorTimes } from './processor-time.js';
import { CONTRADICTED, line, ordinaryLine } from '../walk/shorted-line.js';
import { testUntilConfident } from '../walk/simple-policies.js';

interface Case {
  walk: WalkProblem;
  /** Expected minutes of the best policy there is. */
  optimum: number;
}

const POLICIES = {
  'look ahead': (prepared, state) => rollout(prepared, state).action,
  'test to 95 %': testUntilConfident(0.95),
} satisfies Record<string, Policy>;

/** Prints expected minutes as a ratio to the optimum: mean and worst, for each policy. */
function compare(
  print: (line: string) => void,
  what: string,
  cases: Case[],
  policies: Readonly<Record<string, Policy>> = POLICIES,
): void {
  for (const [name, policy] of Object.entries(policies)) {
    const started = performance.now();
    const ratios = cases.map(
      ({ walk, optimum }) => policyMinutes(prepareWalk(walk), policy) / optimum,
    );
    const milliseconds = (performance.now() - started) / cases.length;
    const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
    print(
      `${what.padEnd(48)} ${name.padEnd(13)} mean ${mean.toFixed(4)} worst ${Math.max(...ratios).toFixed(4)}` +
        ` (${cases.length} sites, ${milliseconds.toFixed(0)} ms each for every decision)`,
    );
  }
}

/** The walk against its optimum, seeds fixed. Mending, the same for every policy, is left out. */
export function benchWalk(print: (line: string) => void): void {
  for (const [rooms, sites] of [
    [10, 60],
    [20, 40],
    [40, 20],
  ] as const) {
    const random = seededRandom(1000 + rooms);
    const cases = Array.from({ length: sites }, (): Case => {
      const { walk, path } = randomPath(rooms, random);
      return { walk, optimum: pathOptimum(path).minutes };
    });
    compare(print, `walk: one fault on a path, ${rooms} rooms`, cases);
  }
  for (const [rooms, sites] of [
    [4, 80],
    [5, 40],
  ] as const) {
    const random = seededRandom(2000 + rooms);
    const cases = Array.from({ length: sites }, (): Case => {
      const walk = randomNoisy(rooms, random);
      return { walk, optimum: exhaustiveOptimum(walk) };
    });
    compare(print, `walk: up to two faults, noisy checks, ${rooms} rooms`, cases);
  }
  const random = seededRandom(3003);
  const cases = Array.from({ length: 3 }, (): Case => {
    const walk = randomWithStations(3, random);
    return { walk, optimum: exhaustiveOptimum(walk) };
  });
  compare(print, 'walk: the same with stations, two functions, 3 rooms', cases);
  const missing = seededRandom(7);
  const missed = Array.from({ length: 20 }, (): Case => {
    const walk = randomMissed(3, missing);
    return { walk, optimum: exhaustiveOptimum(walk) };
  });
  // Testing to 95 % makes nothing anew, and so never ends where a look missed what it looked for.
  const ending = { 'look ahead': POLICIES['look ahead'] };
  compare(print, 'walk: up to two faults, looks that miss, 3 rooms', missed, ending);
  nextStep(print, 'a short or not, contradictory reports, 40 rooms', line(CONTRADICTED));
  nextStep(print, 'an ordinary fault, 80 rooms', ordinaryLine());
}

/** The whole answer to a technician on site, in the worst case that is promised: 200 ms; beside a location of the same. */
function nextStep(
  print: (line: string) => void,
  what: string,
  asked: ReturnType<typeof line>,
): void {
  const posed = { ...asked, from: { trunk: '', node: null } };
  const times = processorTimes(15, () => planTicketWalk(posed));
  const [median = NaN] = times.slice(7);
  const locateIt = () => locate({ ...posed.request, explanations: 0 });
  const [located = NaN] = processorTimes(15, locateIt).slice(7);
  print(
    `walk: ${what}: ${median.toFixed(0)} ms of the processor median, ` +
      `${times.at(-1)?.toFixed(0)} ms the most of ${times.length} (promised 200 ms), ` +
      `${(median / located).toFixed(0)} times a location of the same; ` +
      `a fixed loop of some 80 ms on a quiet machine took ${fixedLoopMilliseconds().toFixed(0)} ms`,
  );
}
