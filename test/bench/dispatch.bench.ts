import fc from 'fast-check';

import type { DayPlan, DayProblem } from '#app/dispatch/day-problem.js';
import { planGreedily } from '#app/dispatch/greedy-day.js';
import { planQuarterGreedily } from '#app/dispatch/greedy-quarter.js';
import { highsSolver } from '#app/dispatch/highs-solver.js';
import type { LinearSolver } from '#app/dispatch/linear-solver.js';
import { proveDay } from '#app/dispatch/prove-day.js';
import { proveQuarter } from '#app/dispatch/prove-quarter.js';
import type { QuarterPlan, QuarterProblem } from '#app/dispatch/quarter-problem.js';

import { asDayProblem, PUBLISHED_DAYS } from '../dispatch/published-days.js';
import { randomDay } from '../dispatch/random-days.js';
import { randomQuarter } from '../dispatch/random-quarters.js';
import { processorTimes } from './processor-time.js';

const SEED = 2026;
/** Of each size. */
const PLANS = 6;

/** What is left undone, and what the rest weighs: travel, waiting, lateness, distance from the best day. */
interface Weighed {
  undone: number;
  rest: number;
}

/** A plan against the plain greedy one, and against what no plan can be below. */
interface Compared {
  greedy: Weighed;
  planned: Weighed;
  cost: number;
  bound: number;
}

/** Plans of days and of quarters, against plain greedy ones and against their bounds. */
export async function benchDispatch(log: (line: string) => void): Promise<void> {
  const solve = await highsSolver();
  log(`Plans of days and quarters, ${PLANS} of each size drawn with seed ${SEED}:`);
  for (const [jobs, technicians] of [
    [8, 3],
    [14, 4],
    [20, 6],
    [28, 6],
  ] as const) {
    const problems = sampled(randomDay({ jobs, technicians, isFull: true })).map(ordinaryDay);
    report(log, `a day, ${jobs} jobs, ${technicians} technicians`, problems, (problem) =>
      compareDay(problem, solve),
    );
  }
  for (const published of PUBLISHED_DAYS)
    report(log, `${published.name}, published optimum`, [asDayProblem(published)], (problem) =>
      compareDay(problem, solve),
    );
  for (const [visits, technicians, days] of [
    [12, 2, 20],
    [40, 3, 64],
  ] as const) {
    const problems = sampled(randomQuarter({ visits, technicians, days, isFull: true })).map(
      ordinaryQuarter,
    );
    const name = `a quarter, ${visits} visits, ${technicians} technicians, ${days} days`;
    report(log, name, problems, (problem) => compareQuarter(problem, solve));
  }
}

/** The tests' days are hostile; this one can mostly be done: jobs of an hour at most that nobody is told to do, and that matter. */
function ordinaryDay(problem: DayProblem): DayProblem {
  const jobs = problem.jobs.map(({ pinnedTo: _, ...job }) => {
    return { ...job, minutes: Math.min(job.minutes, 60), latePerMinute: 1, undoneCost: 2000 };
  });
  return { ...problem, jobs };
}

/** The same of a quarter: whole days of work, and visits that may be on most days. */
function ordinaryQuarter(problem: QuarterProblem): QuarterProblem {
  const technicians = problem.technicians.map((technician) => {
    return { ...technician, minutesOfDay: technician.minutesOfDay.map(() => 480) };
  });
  const openDays = [...(technicians[0]?.minutesOfDay.keys() ?? [])];
  const visits = problem.visits.map(({ pinnedTo: _, ...visit }) => {
    const days = openDays.filter((day) => (day + visit.idealDay) % 3 > 0);
    return { ...visit, days, undoneCost: 5000 };
  });
  return { ...problem, technicians, visits };
}

function compareDay(problem: DayProblem, solve: LinearSolver): Compared {
  const weigh = ({ cost, undone }: DayPlan) =>
    weighed(
      cost,
      undone.map((job) => problem.jobs[job]?.undoneCost ?? NaN),
    );
  const plan = proveDay(problem, solve);
  return { greedy: weigh(planGreedily(problem)), planned: weigh(plan), ...plan };
}

function compareQuarter(problem: QuarterProblem, solve: LinearSolver): Compared {
  const weigh = ({ cost, placed }: QuarterPlan) => {
    const done = new Set(placed.map(({ visit }) => visit));
    const undone = problem.visits.filter((_, visit) => !done.has(visit));
    return weighed(
      cost,
      undone.map(({ undoneCost }) => undoneCost),
    );
  };
  const plan = proveQuarter(problem, solve);
  return { greedy: weigh(planQuarterGreedily(problem)), planned: weigh(plan), ...plan };
}

function weighed(cost: number, undoneCosts: readonly number[]): Weighed {
  const undone = undoneCosts.length;
  return { undone, rest: undoneCosts.reduce((rest, each) => rest - each, cost) };
}

function sampled<Problem>(problems: fc.Arbitrary<Problem>): Problem[] {
  return fc.sample(problems, { seed: SEED, numRuns: PLANS });
}

function report<Problem>(
  log: (line: string) => void,
  name: string,
  problems: readonly Problem[],
  plan: (problem: Problem) => Compared,
): void {
  const plans: Compared[] = [];
  const times = problems.map(
    (problem) => processorTimes(1, () => plans.push(plan(problem)))[0] ?? NaN,
  );
  const sum = (read: (one: Compared) => number) => plans.reduce((all, one) => all + read(one), 0);
  const proven = plans.filter(({ cost, bound }) => bound === cost).length;
  const gap = ((1 - sum(({ bound }) => bound) / sum(({ cost }) => cost)) * 100).toFixed(1);
  const rest = sum(({ greedy }) => greedy.rest) / sum(({ planned }) => planned.rest);
  const seconds = (Math.max(...times) / 1000).toFixed(1);
  log(
    `  ${name}: proven ${proven} of ${plans.length}, gap ${gap} %; ` +
      `undone ${sum(({ planned }) => planned.undone)}, greedy ${sum(({ greedy }) => greedy.undone)}; ` +
      `the rest by greedy ${rest.toFixed(2)} of it; ${seconds} s of processor at most`,
  );
}
