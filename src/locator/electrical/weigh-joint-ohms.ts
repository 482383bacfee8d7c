import { power } from '../../elementary/power.js';
import { exp } from '../../elementary/exp.js';
import { ln } from '../../elementary/ln.js';
import { reachOfJoint } from './joint-reach.js';
import { JointQuestion } from './joint-question.js';
import { logAdd } from '../numbers/log-add.js';
import { logSumExp } from '../numbers/log-sum-exp.js';
import { ReadingLikelihood } from './reading-likelihood.js';

export interface WeighedOhms {
  logLikelihood: number;
  ohms: { median: number; low: number; high: number };
}

interface GridPoint {
  logOhms: number;
  /** Prior density over log ohms times likelihood. */
  logDensity: number;
  /** The same for each normal part of the likelihood. */
  logParts: number[];
}

const FIRST_POINTS = 49;
/** Neighbours at a peak may differ by so much before a point is put between them; lower, by more. */
const LARGEST_STEP = 0.1;
/** What is e^-25 of a peak does not need to be drawn finely. */
const WORTH_DRAWING = 25;
const FINEST_SHARE = 2 ** -14;

/**
 * Integrates the likelihood of the readings over the log-normal size of the joint, on a grid in
 * log ohms that is made finer around the peak of each part of the likelihood. The parts are
 * watched, not their sum: its flat share would hide a peak that is narrower than the first grid.
 */
export function weighJointOhms(
  { jointOhms }: JointQuestion,
  likelihood: (ohms: number) => ReadingLikelihood,
): WeighedOhms {
  const deviation = jointOhms.logDeviation;
  const middle = ln(jointOhms.medianOhms);
  const logScale = ln(deviation * Math.sqrt(2 * Math.PI));
  const pointAt = (logOhms: number): GridPoint => {
    const prior = -0.5 * power((logOhms - middle) / deviation, 2) - logScale;
    const { log, logParts } = likelihood(exp(logOhms));
    return { logOhms, logDensity: prior + log, logParts: logParts.map((part) => prior + part) };
  };
  const { fromLogOhms, toLogOhms } = reachOfJoint(jointOhms);
  const step = (toLogOhms - fromLogOhms) / (FIRST_POINTS - 1);
  let grid = Array.from({ length: FIRST_POINTS }, (_, i) => pointAt(fromLogOhms + i * step));
  for (;;) {
    const finer = refined(grid, step * FINEST_SHARE, pointAt);
    if (finer.length === grid.length) return summed(grid);
    grid = finer;
  }
}

function refined(
  grid: GridPoint[],
  finest: number,
  pointAt: (x: number) => GridPoint,
): GridPoint[] {
  const parts = grid[0]?.logParts.map((_, k) => k) ?? [];
  const peaks = parts.map((k) => Math.max(...grid.map(({ logParts }) => logParts[k] ?? -Infinity)));
  const widthAfter = (i: number) => {
    const [point, next] = [grid[i], grid[i + 1]];
    return point && next ? next.logOhms - point.logOhms : Infinity;
  };
  return grid.flatMap((point, i) => {
    const next = grid[i + 1];
    if (next === undefined || widthAfter(i) <= finest) return [point];
    // A peak can hide between two equal neighbours: then it is steep on both sides of them.
    const isCoarser = widthAfter(i) > 2 * Math.min(widthAfter(i - 1), widthAfter(i + 1));
    const isCoarse = parts.some((k) => {
      const here = point.logParts[k] ?? -Infinity;
      const there = next.logParts[k] ?? -Infinity;
      const depth = (peaks[k] ?? 0) - Math.max(here, there);
      const isSteep = Math.abs(here - there) > LARGEST_STEP * (1 + depth);
      return depth < WORTH_DRAWING && (isCoarser || isSteep);
    });
    return isCoarse ? [point, pointAt((point.logOhms + next.logOhms) / 2)] : [point];
  });
}

/** Trapezoids. */
function summed(grid: GridPoint[]): WeighedOhms {
  const logMasses = grid.slice(1).map((point, i) => {
    const before = grid[i] ?? point;
    const width = point.logOhms - before.logOhms;
    return ln(width / 2) + logAdd(before.logDensity, point.logDensity);
  });
  const logLikelihood = logSumExp(Float64Array.from(logMasses));
  const quantile = (share: number) => {
    let below = 0;
    for (const [i, logMass] of logMasses.entries()) {
      const mass = exp(logMass - logLikelihood);
      const from = grid[i]?.logOhms ?? 0;
      const to = grid[i + 1]?.logOhms ?? from;
      if (below + mass >= share) return exp(from + ((share - below) / mass) * (to - from));
      below += mass;
    }
    return exp(grid.at(-1)?.logOhms ?? 0);
  };
  return {
    logLikelihood,
    ohms: { median: quantile(0.5), low: quantile(0.05), high: quantile(0.95) },
  };
}
