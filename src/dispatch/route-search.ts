import type { Crew } from './crew.js';
import type { DayProblem } from './day-problem.js';
import { jobCost, travel } from './day-route.js';
import { beginsAt, deviationOf, varianceAfter } from './late-risk.js';

/* eslint-disable @typescript-eslint/no-non-null-assertion -- the loops below read tables by indices that they made
   themselves, some hundred million times */

/** What one crew can do, by the crew's own numbering of its jobs, ready for the search. */
export interface CrewTables {
  crew: Crew;
  count: number;
  fromMinute: number;
  toMinute: number;
  /** Minutes to a job from the start, by job. */
  out: Int32Array;
  /** Minutes from a job to the end place, by job. */
  back: Int32Array;
  /** Minutes from a job to another, by from · count + to. */
  between: Int32Array;
  minutes: Int32Array;
  /** When a job begins on arrival at a minute since `fromMinute`, by job; -1 when it cannot any more. */
  begins: Int32Array[];
  /** What doing it weighs on arrival at a minute since `fromMinute` that is certain, by job. */
  costs: Int32Array[];
  /** The same on an arrival that is not, by job and {@link deviationOf} it: never less. */
  riskyCosts: (job: number, deviation: number) => Int32Array;
  /** The variance of when a job ends that somebody comes to at a minute since `fromMinute`, with what is uncertain of that. */
  varianceAfter: (job: number, arrives: number, before: number) => number;
  /** The first and the last minute since `fromMinute` at which a job can end, by job. */
  firstEnd: Int32Array;
  lastEnd: Int32Array;
}

/** Minutes of search that are left; shared by all searches of one plan, so that its work is bounded. */
export interface SearchWork {
  left: number;
}

export interface FoundRoute {
  /** By the problem's index. */
  jobs: readonly number[];
  cost: number;
  /** Cost less what the jobs and the crew are worth. */
  reducedCost: number;
}

export function routeTablesOf(problem: DayProblem, crew: Crew): CrewTables {
  const { technician } = crew;
  const jobs = crew.jobs.map((index) => problem.jobs[index]!);
  const count = jobs.length;
  const { fromMinute, toMinute, endPlace } = technician;
  const minutesOfDay = Array.from({ length: toMinute - fromMinute + 1 }, (_, minute) => minute);
  const between = new Int32Array(count * count);
  for (const [from, { place }] of jobs.entries()) {
    for (const [to, job] of jobs.entries()) {
      between[from * count + to] = travel(problem, place, job.place);
    }
  }
  const begins = jobs.map((job) =>
    Int32Array.from(minutesOfDay, (minute) => {
      const at = beginsAt(job, fromMinute + minute);
      return at + job.minutes <= toMinute ? at - fromMinute : -1;
    }),
  );
  return {
    crew,
    count,
    fromMinute,
    toMinute,
    out: Int32Array.from(jobs, ({ place }) => travel(problem, technician.startPlace, place)),
    back: Int32Array.from(jobs, ({ place }) =>
      endPlace === undefined ? 0 : travel(problem, place, endPlace),
    ),
    between,
    minutes: Int32Array.from(jobs, (job) => job.minutes),
    begins,
    firstEnd: Int32Array.from(begins, (at, job) => at[0]! + jobs[job]!.minutes),
    lastEnd: Int32Array.from(begins, (at, job) => Math.max(...at) + jobs[job]!.minutes),
    ...risksOf(problem, crew, begins),
  };
}

/** What depends on how uncertain an arrival is; where no job of a crew is promised nothing does. */
function risksOf(
  problem: DayProblem,
  { technician, jobs: indices }: Crew,
  begins: readonly Int32Array[],
): Pick<CrewTables, 'costs' | 'riskyCosts' | 'varianceAfter'> {
  const { fromMinute } = technician;
  const jobs = indices.map((index) => problem.jobs[index]!);
  const isPromised = jobs.some((job) => (job.respondBy ?? job.restoreBy) !== undefined);
  const known = jobs.map((): (Int32Array | undefined)[] => []);
  const riskyCosts = (job: number, deviation: number) =>
    (known[job]![deviation] ??= begins[job]!.map((begin, minute) =>
      begin < 0
        ? 0
        : jobCost(problem, jobs[job]!, technician, { arrives: fromMinute + minute, deviation }),
    ));
  return {
    costs: jobs.map((_, job) => riskyCosts(job, 0)),
    riskyCosts,
    varianceAfter: (job, minute, before) => {
      if (!isPromised) return 0;
      const coming = { arrives: fromMinute + minute, deviation: deviationOf(before) };
      return varianceAfter(jobs[job]!, coming, before);
    },
  };
}

/**
 * The least that can follow a job that ends at a minute, by job · (minutes + 1) + minute, when a job may be done twice: never
 * more than what really can follow, and worked out once, backwards in time. Infinite where the day cannot be ended.
 */
export function leastAfter(tables: CrewTables, worth: Float64Array): Float64Array {
  const { count, between, back, minutes, begins, costs, firstEnd, lastEnd } = tables;
  const last = tables.toMinute - tables.fromMinute;
  const least = new Float64Array(count * (last + 1)).fill(Infinity);
  for (let minute = last; minute >= 0; minute -= 1) {
    for (let from = 0; from < count; from += 1) {
      if (minute < firstEnd[from]! || minute > lastEnd[from]!) continue;
      let best = minute + back[from]! <= last ? back[from]! : Infinity;
      for (let to = 0; to < count; to += 1) {
        if (to === from) continue;
        const way = between[from * count + to]!;
        const arrives = minute + way;
        const start = arrives <= last ? begins[to]![arrives]! : -1;
        if (start < 0) continue;
        const after = least[to * (last + 1) + start + minutes[to]!]!;
        const through = way + costs[to]![arrives]! - worth[to]! + after;
        if (through < best) best = through;
      }
      least[from * (last + 1) + minute] = best;
    }
  }
  return least;
}

/** The least reduced cost that any day of the crew can have, 0 for staying at home: never more than the true one. */
export function leastOfDay(tables: CrewTables, worth: Float64Array, least: Float64Array): number {
  let best = 0;
  for (let job = 0; job < tables.count; job += 1) {
    best = Math.min(best, firstStep(tables, worth, job)?.bound(least) ?? Infinity);
  }
  return best;
}

function firstStep(tables: CrewTables, worth: Float64Array, job: number) {
  const { out, begins, costs, minutes } = tables;
  const last = tables.toMinute - tables.fromMinute;
  const start = out[job]! <= last ? begins[job]![out[job]!]! : -1;
  if (start < 0) return undefined;
  const ends = start + minutes[job]!;
  const cost = out[job]! + costs[job]![out[job]!]!;
  return {
    ends,
    variance: tables.varianceAfter(job, out[job]!, 0),
    cost,
    bound: (least: Float64Array) => cost - worth[job]! + least[job * (last + 1) + ends]!,
  };
}

/** A way to a job: which were done, when the last of them ended, what it weighs. */
interface Way {
  done: number;
  last: number;
  ends: number;
  /** How uncertain `ends` is. */
  variance: number;
  cost: number;
  /** Cost less what was done is worth. */
  reduced: number;
  before?: Way;
  beaten: boolean;
}

/** How the search tells that one way makes another needless. */
export type Beats = 'by-time-and-cost' | 'by-what-is-left' | 'of-the-same-jobs';

/**
 * The crew's days with a reduced cost below a limit. `of-the-same-jobs` finds for each set of jobs the cheapest day;
 * `by-what-is-left` a least one of all; `by-time-and-cost` some, quickly. Undefined when the work that was left is used up.
 */
export function searchRoutes(
  tables: CrewTables,
  asked: { worth: Float64Array; least: Float64Array; below: number; beats: Beats },
  work: SearchWork,
): FoundRoute[] | undefined {
  const last = tables.toMinute - tables.fromMinute;
  const byEnd: Way[][] = Array.from({ length: last + 1 }, () => []);
  const rivals = new Map<number, Way[]>();
  const found = new Map<number, FoundRoute>();
  for (let job = 0; job < tables.count; job += 1) {
    const step = firstStep(tables, asked.worth, job);
    if (step === undefined || step.bound(asked.least) >= asked.below) continue;
    const { ends, variance, cost } = step;
    const way = { done: 1 << job, last: job, ends, variance, cost };
    const reduced = cost - asked.worth[job]!;
    keep({ ...way, reduced, beaten: false }, asked.beats, rivals, byEnd);
  }
  for (const ways of byEnd) {
    for (const way of ways) {
      if (way.beaten) continue;
      close(tables, way, asked.below, found);
      work.left -= tables.count;
      if (work.left < 0) return undefined;
      goOn(tables, asked, way, (next) => keep(next, asked.beats, rivals, byEnd));
    }
  }
  return [...found.values()];
}

function goOn(
  tables: CrewTables,
  { worth, least, below }: { worth: Float64Array; least: Float64Array; below: number },
  way: Way,
  take: (next: Way) => void,
): void {
  const { count, between, begins, riskyCosts, minutes } = tables;
  const last = tables.toMinute - tables.fromMinute;
  const deviation = deviationOf(way.variance);
  for (let to = 0; to < count; to += 1) {
    if ((way.done & (1 << to)) !== 0) continue;
    const arrives = way.ends + between[way.last * count + to]!;
    const start = arrives <= last ? begins[to]![arrives]! : -1;
    if (start < 0) continue;
    const step = between[way.last * count + to]! + riskyCosts(to, deviation)[arrives]!;
    const ends = start + minutes[to]!;
    const reduced = way.reduced + step - worth[to]!;
    if (reduced + least[to * (last + 1) + ends]! >= below) continue;
    const done = way.done | (1 << to);
    const variance = tables.varianceAfter(to, arrives, way.variance);
    const cost = way.cost + step;
    take({ done, last: to, ends, variance, cost, reduced, before: way, beaten: false });
  }
}

/** Takes a way in unless another makes it needless, and drops those that it does. */
function keep(way: Way, beats: Beats, rivals: Map<number, Way[]>, byEnd: Way[][]): void {
  const key = beats === 'of-the-same-jobs' ? way.done * 32 + way.last : way.last;
  const others = rivals.get(key);
  if (others === undefined) {
    rivals.set(key, [way]);
    byEnd[way.ends]!.push(way);
    return;
  }
  const anySet = beats === 'by-time-and-cost';
  let kept = 0;
  for (const other of others) {
    if (better(other, way, anySet)) return;
  }
  for (const other of others) {
    if (better(way, other, anySet)) other.beaten = true;
    else others[kept++] = other;
  }
  others.length = kept;
  others.push(way);
  byEnd[way.ends]!.push(way);
}

function better(a: Way, b: Way, anySet: boolean): boolean {
  if (a.ends > b.ends || a.reduced > b.reduced) return false;
  return anySet || ((a.done & ~b.done) === 0 && a.variance <= b.variance);
}

function close(tables: CrewTables, way: Way, below: number, found: Map<number, FoundRoute>): void {
  const back = tables.back[way.last]!;
  if (way.ends + back > tables.toMinute - tables.fromMinute) return;
  const reducedCost = way.reduced + back;
  if (reducedCost >= below || reducedCost >= (found.get(way.done)?.reducedCost ?? Infinity)) return;
  const jobs: number[] = [];
  for (let at: Way | undefined = way; at !== undefined; at = at.before) {
    jobs.push(tables.crew.jobs[at.last]!);
  }
  found.set(way.done, { jobs: jobs.reverse(), cost: way.cost + back, reducedCost });
}
