import { componentsOfSite } from '../history/component-classes.js';
import { MODEL_RATES, PRIOR_EVENTS } from '../history/learned-rates.js';
import { availability } from '../statistics/availability.js';
import { type GammaPrior, gammaPriorFrom5095, mtbfPosterior } from '../statistics/gamma-prior.js';
import { mtbfLimits } from '../statistics/mtbf-limits.js';
import { powerLawGrowth } from '../statistics/power-law-growth.js';
import { trendTests } from '../statistics/trend-tests.js';
import type { AsBuilt } from '../sites/as-built.js';
import type { ReliabilityFiguresDto } from './reliability-figures.dto.js';
import type { ReviewedSite, ReviewQuestion } from './review-question.js';

const HOUR_MS = 3_600_000;
const HOURS_PER_YEAR = 8766;

/** Of all limits, two-sided. */
const CONFIDENCE = 0.9;

/**
 * How often something fails at the sites together: hours by the calendar at all sites since there is a record, failures
 * that were found and mended. Sites are alike here, and each runs as long as the others.
 * @param hoursToRestore mean of the tickets of the year, by the calendar; null: none was restored
 */
export function reliabilityFigures(
  question: Pick<ReviewQuestion, 'sites' | 'failures' | 'recordedSince' | 'prior'>,
  until: number,
  hoursToRestore: number | null,
): ReliabilityFiguresDto | null {
  const since = Date.parse(question.recordedSince);
  const ownHours = (until - since) / HOUR_MS;
  if (ownHours < 1 || question.sites.length === 0) return null;
  const hoursOf = (at: string) => (Date.parse(at) - since) / HOUR_MS;
  const known = question.failures.filter(({ at }) => hoursOf(at) <= ownHours);
  const siteHours = ownHours * question.sites.length;
  const failureHours = known.map(({ at }) => question.sites.length * Math.max(1 / 60, hoursOf(at)));
  // All of them at the very end tell nothing of when they come.
  const canGrow = known.length > 1 && failureHours.some((hours) => hours < siteHours);
  const prior = priorOf(question);
  const posterior = mtbfPosterior(prior, siteHours, known.length, CONFIDENCE);
  return {
    since: question.recordedSince,
    until: new Date(until),
    confidence: CONFIDENCE,
    siteHours,
    failures: known.length,
    ...mtbfLimits(siteHours, known.length, CONFIDENCE),
    priorShape: prior.shape,
    priorHours: prior.hours,
    priorFrom: question.prior === null ? 'model' : 'firm',
    posterior,
    growth: canGrow ? powerLawGrowth(failureHours, siteHours) : null,
    trend: trendTests(failureHours, siteHours),
    hoursToRestore,
    availability:
      hoursToRestore === null ? null : availability(posterior.medianHours, hoursToRestore),
    sites: question.sites.map(({ siteId }) => {
      const failures = known.filter((one) => one.siteId === siteId).length;
      return { siteId, failures, ...mtbfLimits(ownHours, failures, CONFIDENCE) };
    }),
  };
}

/** What the firm said; else the model's own rates at these sites, which count for as much as they do where rates are learned. */
function priorOf({ prior, sites }: Pick<ReviewQuestion, 'prior' | 'sites'>): GammaPrior {
  if (prior !== null) return gammaPriorFrom5095(prior.evenHours, prior.sureHours);
  const yearly = sites.reduce((sum, { asBuilt }) => sum + modelFaultsPerYear(asBuilt), 0);
  const perSite = Math.max(yearly / sites.length, Number.MIN_VALUE);
  return { shape: PRIOR_EVENTS, hours: (PRIOR_EVENTS * HOURS_PER_YEAR) / perSite };
}

function modelFaultsPerYear(asBuilt: AsBuilt): number {
  return componentsOfSite(asBuilt).reduce((sum, { component, yearlyExposure }) => {
    const rates = Object.values(MODEL_RATES(component));
    return sum + yearlyExposure * rates.reduce((total, rate) => total + rate, 0);
  }, 0);
}

/** For the words of a site. */
export function nameOfSite(sites: readonly Pick<ReviewedSite, 'siteId' | 'name'>[], id: string) {
  return sites.find(({ siteId }) => siteId === id)?.name ?? id;
}
