import { chanceAboveZero, expectedExcess, varianceOfExcess } from '../statistics/normal-excess.js';
import type { DayJob } from './day-problem.js';

/** When somebody comes to a job: the minute that is expected, and by how much it may be another. */
export interface Coming {
  arrives: number;
  /** Whole minutes, by {@link deviationOf}. */
  deviation: number;
}

/** What the uncertain lengths of the jobs before, and its own, make of a job. */
export interface JobRisk {
  /** It has begun by then with nine chances in ten. */
  beginsLikely: number;
  endsLikely: number;
  /** Expected beyond what was promised, of being there and of its working again together. */
  expectedLateMinutes: number;
  /** That both promises are kept; 1 without any. */
  keptChance: number;
}

/** Nine in ten of a normal lie below so many deviations above its mean. */
const NINE_IN_TEN = 1.2816;

/** The first minute from `arrives` on at which a job may begin; infinite where its windows are over. */
export function beginsAt(job: DayJob, arrives: number): number {
  if (job.windows.length === 0) return arrives;
  const window = job.windows.find(({ to }) => to >= arrives);
  return window === undefined ? Infinity : Math.max(window.from, arrives);
}

/** Risks are looked up by whole minutes, rounded up, so that tables of them are small and what is uncertain stays so. */
export function deviationOf(variance: number): number {
  return Math.ceil(Math.sqrt(variance));
}

/**
 * Expected minutes beyond what was promised. Whoever waits for a window begins no later for having come later, up to there.
 * Never falls as `arrives` or `deviation` grow, which the proof of a plan rests on.
 */
export function expectedLateMinutes(job: DayJob, { arrives, deviation }: Coming): number {
  const { respondBy, restoreBy } = job;
  let late = 0;
  if (respondBy !== undefined) {
    const opens = job.windows.find(({ to }) => to >= arrives)?.from ?? -Infinity;
    const ever = Math.max(opens, respondBy);
    late += Math.max(0, opens - respondBy) + expectedExcess(arrives - ever, deviation);
  }
  if (restoreBy !== undefined) {
    const ends = beginsAt(job, arrives) + job.minutes;
    const own = Math.sqrt(varianceAfter(job, { arrives, deviation }, deviation ** 2));
    late += expectedExcess(ends - restoreBy, own);
  }
  return late;
}

/**
 * The variance of when a job ends, whole: what was uncertain before and its own length. Waiting for its one window takes up a
 * part of what was uncertain; where it has several it may begin in another, and nothing is taken off.
 */
export function varianceAfter(job: DayJob, { arrives, deviation }: Coming, before: number): number {
  const [window, another] = job.windows;
  const own = job.variance ?? 0;
  if (window === undefined || another !== undefined || before === 0) return before + own;
  return Math.min(before, Math.ceil(varianceOfExcess(arrives - window.from, deviation))) + own;
}

/** When a job has begun and ended with nine chances in ten, and how likely its promises are kept. */
export function riskOf(job: DayJob, coming: Coming): JobRisk {
  const { arrives, deviation } = coming;
  const begins = beginsAt(job, arrives);
  const ends = begins + job.minutes;
  const own = Math.sqrt(varianceAfter(job, coming, deviation ** 2));
  const { respondBy = Infinity, restoreBy = Infinity } = job;
  const tooLate = begins > respondBy ? 1 : chanceAboveZero(arrives - respondBy, deviation);
  const broken = Math.max(tooLate, chanceAboveZero(ends - restoreBy, own));
  return {
    beginsLikely: Math.max(begins, Math.ceil(arrives + NINE_IN_TEN * deviation)),
    endsLikely: Math.ceil(ends + NINE_IN_TEN * own),
    expectedLateMinutes: expectedLateMinutes(job, coming),
    keptChance: 1 - broken,
  };
}
