import { isotonicFit } from './isotonic-fit.js';
import { StatisticsError, requireWithin } from './statistics-error.js';

/** A stated probability and whether it came true. */
export interface Forecast {
  stated: number;
  cameTrue: boolean;
}

export interface ReliabilityPoint {
  stated: number;
  count: number;
  /** How often it came true, as the isotonic fit has it. */
  observed: number;
  /** Band in which `observed` lies if the stated probabilities are right. */
  low: number;
  high: number;
}

/**
 * Isotonic reliability curve: the share that came true as a non-decreasing function of the stated
 * probability, without bins, with a point for each distinct stated value. The band is by
 * consistency resampling: outcomes are drawn again from the stated probabilities, fitted the same
 * way, and the middle `coverage` of the fits taken at each point. (Method: Bröcker and Smith 2007;
 * Dimitriadis, Gneiting and Jordan 2021; memory.)
 * `random` is uniform on [0, 1). Throws {@link StatisticsError}.
 */
export function reliabilityCurve(
  forecasts: readonly Forecast[],
  options: { random: () => number; resamples: number; coverage: number },
): ReliabilityPoint[] {
  const { random, resamples, coverage } = options;
  requireWithin('coverage', coverage, 0, 1);
  if (!Number.isInteger(resamples) || resamples < 1) {
    throw new StatisticsError('resamples', `must be a whole number of at least 1, is ${resamples}`);
  }
  const points = countByStated(forecasts);
  const fit = (trues: (point: CountedPoint) => number) =>
    isotonicFit(
      points.map((point) => ({ value: trues(point) / point.count, weight: point.count })),
    );

  const observed = fit(({ trues }) => trues);
  const resampled = Array.from({ length: resamples }, () =>
    fit(({ stated, count }) => {
      let trues = 0;
      for (let i = 0; i < count; i++) if (random() < stated) trues++;
      return trues;
    }),
  );
  return points.map(({ stated, count }, i) => {
    const fits = resampled.map((values) => values[i] ?? 0).sort((a, b) => a - b);
    const tail = Math.floor(((1 - coverage) / 2) * resamples);
    const [low, high] = [fits[tail] ?? 0, fits[resamples - 1 - tail] ?? 1];
    return { stated, count, observed: observed[i] ?? 0, low, high };
  });
}

interface CountedPoint {
  stated: number;
  count: number;
  trues: number;
}

function countByStated(forecasts: readonly Forecast[]): CountedPoint[] {
  const points = new Map<number, CountedPoint>();
  forecasts.forEach(({ stated, cameTrue }, i) => {
    requireWithin(`forecasts/${i}/stated`, stated, 0, 1);
    const point = points.get(stated) ?? { stated, count: 0, trues: 0 };
    point.count++;
    if (cameTrue) point.trues++;
    points.set(stated, point);
  });
  return [...points.values()].sort((a, b) => a.stated - b.stated);
}
