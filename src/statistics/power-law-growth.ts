import { StatisticsError, requireWithin } from './statistics-error.js';

export interface PowerLawGrowth {
  /** 1 less the exponent of the expected number of failures; above 0: failures grow rarer. */
  growth: number;
  /** Instantaneous, at the end of the record. */
  mtbfHours: number;
}

/**
 * Power-law model of a repaired system over a time-terminated record
 * (NIST/SEMATECH e-Handbook 8.4.5.2): growth 1 - (r - 1)/Σ ln(T/t), MTBF(T) = T/(r (1 - growth)).
 * Throws {@link StatisticsError} for fewer than two failures or one outside (0, T].
 */
export function powerLawGrowth(failureHours: readonly number[], endHours: number): PowerLawGrowth {
  requireWithin('endHours', endHours, Number.MIN_VALUE, Infinity);
  if (failureHours.length < 2)
    throw new StatisticsError('failureHours', 'needs at least two failures');
  const logs = failureHours.map((hours, i) => {
    return Math.log(
      endHours / requireWithin(`failureHours/${i}`, hours, Number.MIN_VALUE, endHours),
    );
  });
  const sum = logs.reduce((total, log) => total + log, 0);
  if (sum === 0)
    throw new StatisticsError('failureHours', 'all failures are at the end of the record');
  const exponent = (failureHours.length - 1) / sum;
  return { growth: 1 - exponent, mtbfHours: endHours / (failureHours.length * exponent) };
}
