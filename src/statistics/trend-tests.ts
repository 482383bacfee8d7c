import jstat from 'jstat';
import { requireWithin } from './statistics-error.js';

/** Below so many failures no test can tell a trend; below the second number it tells strong ones alone (common practice, no source). */
const FEWEST_FAILURES = 4;
const FEW_FAILURES = 10;

/** One test: its statistic and, were there no trend, the chance of one as far out towards rarer, or towards more frequent, failures. */
export interface TrendTest {
  statistic: number;
  pRarer: number;
  pMoreFrequent: number;
}

export interface TrendTests {
  failures: number;
  /** Null with fewer than four failures. */
  laplace: TrendTest | null;
  /** 2 Σ ln(T/t), the test for a power law. */
  logSum: TrendTest | null;
  reverseArrangements: TrendTest | null;
  warning: 'too-few' | 'few' | null;
}

/**
 * Three tests for a trend in the failures of a repaired system over a time-terminated record (NIST/SEMATECH e-Handbook
 * 8.2.3.4; memory). Laplace: z = √(12 r) Σ(t - T/2) / (r T), taken as normal; 2 Σ ln(T/t) is χ² with 2 r degrees without a
 * trend; the pairs of times between failures of which the later is longer, by their exact distribution.
 * Times in order or not, in (0, T]. Throws {@link StatisticsError} naming the failure.
 */
export function trendTests(failureHours: readonly number[], endHours: number): TrendTests {
  requireWithin('endHours', endHours, Number.MIN_VALUE, Infinity);
  failureHours.forEach((hours, i) => {
    requireWithin(`failureHours/${i}`, hours, Number.MIN_VALUE, endHours);
  });
  const times = failureHours.toSorted((one, other) => one - other);
  const failures = times.length;
  if (failures < FEWEST_FAILURES) {
    const none = { laplace: null, logSum: null, reverseArrangements: null };
    return { failures, ...none, warning: 'too-few' };
  }
  return {
    failures,
    laplace: laplace(times, endHours),
    logSum: logSum(times, endHours),
    reverseArrangements: reverseArrangements(times),
    warning: failures < FEW_FAILURES ? 'few' : null,
  };
}

function laplace(times: readonly number[], end: number): TrendTest {
  const sum = times.reduce((total, time) => total + (time - end / 2), 0);
  const z = (Math.sqrt(12 * times.length) * sum) / (times.length * end);
  const below = jstat.normal.cdf(z, 0, 1);
  return { statistic: z, pRarer: below, pMoreFrequent: 1 - below };
}

function logSum(times: readonly number[], end: number): TrendTest {
  const statistic = 2 * times.reduce((total, time) => total + Math.log(end / time), 0);
  const below = jstat.chisquare.cdf(statistic, 2 * times.length);
  return { statistic, pRarer: 1 - below, pMoreFrequent: below };
}

function reverseArrangements(times: readonly number[]): TrendTest {
  const gaps = times.map((time, i) => time - (times[i - 1] ?? 0));
  const longer = gaps.flatMap((gap, i) => gaps.slice(i + 1).filter((later) => later > gap)).length;
  const chances = arrangementChances(gaps.length);
  const sum = (part: readonly number[]) => part.reduce((total, chance) => total + chance, 0);
  return {
    statistic: longer,
    pRarer: sum(chances.slice(longer)),
    pMoreFrequent: sum(chances.slice(0, longer + 1)),
  };
}

/** The chance of each number of pairs in order, when all orders are as likely: one more item adds 0 to n - 1 of them. */
function arrangementChances(items: number): number[] {
  let chances = [1];
  for (let n = 2; n <= items; n++) {
    const next = new Array<number>(chances.length + n - 1).fill(0);
    chances.forEach((chance, pairs) => {
      for (let more = 0; more < n; more++)
        next[pairs + more] = (next[pairs + more] ?? 0) + chance / n;
    });
    chances = next;
  }
  return chances;
}
