import jstat from 'jstat';
import { StatisticsError, requireWithin } from './statistics-error.js';

export interface GammaPrior {
  shape: number;
  /** The gamma's rate parameter: pseudo-hours of test behind the shape. */
  hours: number;
}

/**
 * Gamma prior of a failure rate by the 50/95 method (NIST/SEMATECH e-Handbook 8.2.5): an MTBF that
 * one would bet evenly to be exceeded, and one that is exceeded with 95 %. The quantiles' ratio
 * falls with the shape, so the shape is found by halving its logarithm.
 * Throws {@link StatisticsError} if `mtbf05` is not below `mtbf50`, or by so little or so much that no
 * shape from 0.001 to 100,000 fits.
 */
export function gammaPriorFrom5095(mtbf50Hours: number, mtbf05Hours: number): GammaPrior {
  requireWithin('mtbf05Hours', mtbf05Hours, Number.MIN_VALUE, Infinity);
  requireWithin('mtbf50Hours', mtbf50Hours, mtbf05Hours, Infinity);
  const wanted = mtbf50Hours / mtbf05Hours;
  const ratio = (shape: number) => jstat.gamma.inv(0.95, shape, 1) / jstat.gamma.inv(0.5, shape, 1);
  let [low, high] = [Math.log(1e-3), Math.log(1e5)];
  if (!(ratio(Math.exp(high)) < wanted && wanted < ratio(Math.exp(low)))) {
    throw new StatisticsError(
      'mtbf05Hours',
      `no gamma prior has the ratio ${wanted} of its quantiles`,
    );
  }
  for (let halving = 0; halving < 60; halving++) {
    const middle = (low + high) / 2;
    if (ratio(Math.exp(middle)) > wanted) low = middle;
    else high = middle;
  }
  const shape = Math.exp((low + high) / 2);
  return { shape, hours: mtbf50Hours * jstat.gamma.inv(0.5, shape, 1) };
}

export interface MtbfPosterior {
  shape: number;
  hours: number;
  /** As likely exceeded as not. */
  medianHours: number;
  /** So much of the belief lies between: `confidence`, as much below as above. */
  lowHours: number;
  highHours: number;
}

/**
 * What is thought of an MTBF after so many failures in so many hours: gamma with shape a + r and hours b + T
 * (NIST/SEMATECH e-Handbook 8.4.6). Throws {@link StatisticsError} for a negative record or a confidence outside (0, 1).
 */
export function mtbfPosterior(
  prior: GammaPrior,
  hours: number,
  failures: number,
  confidence: number,
): MtbfPosterior {
  requireWithin('hours', hours, 0, Infinity);
  requireWithin('failures', failures, 0, Infinity);
  requireWithin('confidence', confidence, Number.EPSILON, 1 - Number.EPSILON);
  const posterior = { shape: prior.shape + failures, hours: prior.hours + hours };
  const exceededWith = (chance: number) =>
    posterior.hours / jstat.gamma.inv(chance, posterior.shape, 1);
  return {
    ...posterior,
    medianHours: exceededWith(0.5),
    lowHours: exceededWith((1 + confidence) / 2),
    highHours: exceededWith((1 - confidence) / 2),
  };
}
