import jstat from 'jstat';
import { StatisticsError, requireWithin } from './statistics-error.js';

export interface MtbfLimits {
  /** Hours over failures; null without failures. */
  mtbfHours: number | null;
  lowHours: number;
  /** Null without failures: nothing bounds it. */
  highHours: number | null;
}

/**
 * Mean time between failures from a time-terminated record (NIST/SEMATECH e-Handbook 8.4.5.1):
 * T/r, with limits 2T/χ²(1 - α/2; 2r + 2) and 2T/χ²(α/2; 2r), α = 1 - confidence. Without
 * failures there is only the one-sided lower limit T/(-ln α).
 * Throws {@link StatisticsError} for hours not above 0, failures not whole, confidence outside (0, 1).
 */
export function mtbfLimits(hours: number, failures: number, confidence: number): MtbfLimits {
  requireWithin('hours', hours, Number.MIN_VALUE, Infinity);
  requireWithin('failures', failures, 0, Infinity);
  if (!Number.isInteger(failures))
    throw new StatisticsError('failures', `${failures} is not whole`);
  requireWithin('confidence', confidence, Number.EPSILON, 1 - Number.EPSILON);
  const alpha = 1 - confidence;
  if (failures === 0) {
    return { mtbfHours: null, lowHours: hours / -Math.log(alpha), highHours: null };
  }
  return {
    mtbfHours: hours / failures,
    lowHours: (2 * hours) / jstat.chisquare.inv(1 - alpha / 2, 2 * failures + 2),
    highHours: (2 * hours) / jstat.chisquare.inv(alpha / 2, 2 * failures),
  };
}
