import type { Crew } from './crew.js';
import type { DayProblem } from './day-problem.js';
import { beginsAt, jobCost, travel } from './day-route.js';

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
  /** What doing it weighs when it begins at a minute since `fromMinute`, by job. */
  costs: Int32Array[];
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
    costs: jobs.map((job) =>
      Int32Array.from(minutesOfDay, (minute) =>
        jobCost(problem, job, technician, fromMinute + minute),
      ),
    ),
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
        const through = way + costs[to]![start]! - worth[to]! + after;
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
  const cost = out[job]! + costs[job]![start]!;
  return {
    ends,
    cost,
    bound: (least: Float64Array) => cost - worth[job]! + least[job * (last + 1) + ends]!,
  };
}

/** A way to a job: which were done, when the last of them ended, what it weighs. */
interface Way {
  done: number;
  last: number;
  ends: number;
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
    const { ends, cost } = step;
    const way = { done: 1 << job, last: job, ends, cost, reduced: cost - asked.worth[job]! };
    keep({ ...way, beaten: false }, asked.beats, rivals, byEnd);
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
  { count, between, begins, costs, minutes, toMinute, fromMinute }: CrewTables,
  { worth, least, below }: { worth: Float64Array; least: Float64Array; below: number },
  way: Way,
  take: (next: Way) => void,
): void {
  const last = toMinute - fromMinute;
  for (let to = 0; to < count; to += 1) {
    if ((way.done & (1 << to)) !== 0) continue;
    const arrives = way.ends + between[way.last * count + to]!;
    const start = arrives <= last ? begins[to]![arrives]! : -1;
    if (start < 0) continue;
    const step = between[way.last * count + to]! + costs[to]![start]!;
    const ends = start + minutes[to]!;
    const reduced = way.reduced + step - worth[to]!;
    if (reduced + least[to * (last + 1) + ends]! >= below) continue;
    const done = way.done | (1 << to);
    take({ done, last: to, ends, cost: way.cost + step, reduced, before: way, beaten: false });
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
  return a.ends <= b.ends && a.reduced <= b.reduced && (anySet || (a.done & ~b.done) === 0);
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
