import { crewsOf } from './crew.js';
import { dayPlan, planGreedily } from './greedy-day.js';
import type { DayPlan, DayProblem, DayRoute } from './day-problem.js';
import type { LinearModel, LinearSolver } from './linear-solver.js';
import {
  type Beats,
  type CrewTables,
  type FoundRoute,
  leastAfter,
  leastOfDay,
  searchRoutes,
  type SearchWork,
  routeTablesOf,
} from './route-search.js';

/** Sets of jobs are bits of a whole number. */
export const MOST_PROVEN_JOBS = 30;

/** Steps of search a plan may take; some seconds. */
const WORK = 30_000_000;

/** Steps through a table cost less than steps of search, by this factor. */
const TABLE_STEPS = 10;

/** Days of one crew that are taken into the model at once. */
const TAKEN_AT_ONCE = 40;

/** Rounds of finding better days. */
const ROUNDS = 400;

/** The last model has so many days at most; beyond, the gap is told. */
const LARGEST_MODEL = 60_000;

const TOLERANCE = 1e-6;

/** A plan, and what no plan can be below: equal where it is proven to be the best. */
export interface BoundedDayPlan extends DayPlan {
  bound: number;
}

interface Column extends FoundRoute {
  crew: number;
}

/**
 * The best plan of a day, by choosing among whole days of technicians (columns): days that could help are found by what each
 * job is worth in the relaxed problem, until none is left, whose value no plan can be below; then every day that could
 * be in a better plan than the one known is listed, and the best choice of them is exact (costs are whole numbers). Where that
 * would take too much work, the best plan found with its bound. Technique: column generation with reduced-cost
 * fixing, common practice (Desrosiers, Soumis, Desrochers 1984; memory).
 */
export function proveDay(problem: DayProblem, solve: LinearSolver): BoundedDayPlan {
  const greedy = planGreedily(problem);
  // Without jobs or people there is one plan alone, and nothing to choose.
  if (problem.jobs.length === 0 || problem.technicians.length === 0) {
    return { ...greedy, bound: greedy.cost };
  }
  if (problem.jobs.length > MOST_PROVEN_JOBS) return { ...greedy, bound: looseBound(problem) };
  return new DayProof(problem, solve, greedy).prove();
}

/** Each job by itself, done by whoever is nearest or left undone: what no plan can be below. */
export function looseBound(problem: DayProblem): number {
  return problem.jobs.reduce((sum, { place, undoneCost }) => {
    const from = problem.travelMinutes.map((row) => row[place] ?? 0);
    return sum + Math.min(undoneCost, ...from.filter((_, other) => other !== place));
  }, 0);
}

class DayProof {
  private readonly crews: CrewTables[];
  private readonly columns: Column[] = [];
  private readonly known = new Set<string>();
  private readonly work: SearchWork = { left: WORK };
  private best: DayPlan;
  private bound = -Infinity;
  private worth: Float64Array = new Float64Array();
  private relaxed = -Infinity;
  private finished = false;

  constructor(
    private readonly problem: DayProblem,
    private readonly solve: LinearSolver,
    greedy: DayPlan,
  ) {
    this.crews = crewsOf(problem).map((crew) => routeTablesOf(problem, crew));
    this.best = greedy;
    for (const { technician, jobs } of greedy.routes) {
      const crew = this.crews.findIndex((tables) => tables.crew.technicians.includes(technician));
      this.take(crew, [{ jobs, cost: this.costOf(technician, jobs), reducedCost: 0 }]);
    }
  }

  prove(): BoundedDayPlan {
    this.relax();
    this.choose(this.columns);
    if (this.finished && Math.ceil(this.bound - TOLERANCE) < this.best.cost) this.fix();
    const bound = Math.ceil(this.bound - TOLERANCE);
    return { ...this.best, bound: Math.min(this.best.cost, Math.max(bound, 0)) };
  }

  /** Finds days until none would lower the relaxed problem's value, or the work is used up. */
  private relax(): void {
    let beats: Beats = 'by-time-and-cost';
    for (let round = 0; round < ROUNDS; round += 1) {
      const solution = this.solve(this.model(this.columns, false));
      if (solution === undefined) return;
      this.worth = solution.rowPrices;
      this.relaxed = solution.bound;
      const added = this.price(beats);
      if (added === undefined) return;
      if (added > 0) continue;
      if (beats === 'by-what-is-left') {
        this.bound = this.relaxed;
        this.finished = true;
        return;
      }
      beats = 'by-what-is-left';
    }
  }

  /** How many days were added; undefined when the work is used up. */
  private price(beats: Beats): number | undefined {
    let added = 0;
    let bound = this.relaxed;
    for (const [crew, tables] of this.crews.entries()) {
      const worth = this.worthOf(tables);
      const least = leastAfter(tables, worth);
      this.work.left -= tableSteps(tables) / TABLE_STEPS;
      const price = this.worth[this.problem.jobs.length + crew] ?? 0;
      bound +=
        tables.crew.technicians.length * Math.min(0, leastOfDay(tables, worth, least) - price);
      const below = price - TOLERANCE;
      const found = searchRoutes(tables, { worth, least, below, beats }, this.work);
      if (found === undefined) return undefined;
      found.sort((a, b) => a.reducedCost - b.reducedCost);
      added += this.take(crew, found.slice(0, TAKEN_AT_ONCE));
    }
    // Days in which a job may come twice: what they could save at most bounds what all others could.
    this.bound = Math.max(this.bound, bound);
    return added;
  }

  /** Lists every day that could be in a plan better than the best known, and chooses among them. */
  private fix(): void {
    const room = this.best.cost - 1 - this.relaxed + TOLERANCE;
    const all: Column[] = [];
    for (const [crew, tables] of this.crews.entries()) {
      const worth = this.worthOf(tables);
      const price = this.worth[this.problem.jobs.length + crew] ?? 0;
      const least = leastAfter(tables, worth);
      const asked = { worth, least, below: price + room, beats: 'of-the-same-jobs' } as const;
      const found = searchRoutes(tables, asked, this.work);
      if (found === undefined || all.length + found.length > LARGEST_MODEL) return;
      all.push(...found.map((route) => ({ ...route, crew })));
    }
    const proven = this.choose(all);
    this.bound = Math.max(this.bound, Math.min(this.best.cost, proven));
  }

  /** The best choice among days, kept when it is better than the best known; tells what no choice can be below. */
  private choose(columns: readonly Column[]): number {
    const solution = this.solve(this.model(columns, true));
    if (solution === undefined) return Infinity;
    const free = this.crews.map(({ crew }) => [...crew.technicians]);
    const routes: DayRoute[] = [];
    for (const [index, column] of columns.entries()) {
      if ((solution.values[index] ?? 0) < 0.5) continue;
      const technician = free[column.crew]?.shift();
      if (technician !== undefined) routes.push({ technician, jobs: column.jobs });
    }
    const done = new Set(routes.flatMap(({ jobs }) => jobs));
    const undone = [...this.problem.jobs.keys()].filter((job) => !done.has(job));
    const plan = dayPlan(this.problem, routes, undone);
    if (plan.cost < this.best.cost) this.best = plan;
    return Math.ceil(solution.bound - TOLERANCE);
  }

  private model(columns: readonly Column[], whole: boolean): LinearModel {
    const { jobs } = this.problem;
    return {
      columns: [
        ...columns.map(({ cost, jobs: done, crew }) => ({
          cost,
          rows: [...done, jobs.length + crew].map((row) => [row, 1] as const),
        })),
        ...jobs.map(({ undoneCost }, job) => ({ cost: undoneCost, rows: [[job, 1] as const] })),
      ],
      rowLower: [...jobs.map(() => 1), ...this.crews.map(() => 0)],
      rowUpper: [...jobs.map(() => 1), ...this.crews.map(({ crew }) => crew.technicians.length)],
      whole,
    };
  }

  private take(crew: number, routes: readonly FoundRoute[]): number {
    let added = 0;
    for (const route of routes) {
      const key = `${crew}:${route.jobs.join()}`;
      if (this.known.has(key)) continue;
      this.known.add(key);
      this.columns.push({ ...route, crew });
      added += 1;
    }
    return added;
  }

  private costOf(technician: number, jobs: readonly number[]): number {
    return dayPlan(this.problem, [{ technician, jobs }], []).cost;
  }

  private worthOf({ crew }: CrewTables): Float64Array {
    return Float64Array.from(crew.jobs, (job) => this.worth[job] ?? 0);
  }
}

function tableSteps({ count, firstEnd, lastEnd }: CrewTables): number {
  return count * lastEnd.reduce((sum, to, job) => sum + to - (firstEnd[job] ?? 0), 0);
}
