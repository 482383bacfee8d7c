import { hitRates, type HitRates } from './hit-rates.js';
import { logScoreBits } from './log-score.js';
import { type Forecast, reliabilityCurve, type ReliabilityPoint } from './reliability-curve.js';
import { seededRandom } from './seeded-random.js';

/** One case: what was predicted when somebody was sent, and the places where something was found, by any names. */
export interface ReliabilityCase {
  /** Most probable first; null where nothing was predicted. */
  predicted: readonly { place: string; probability: number }[] | null;
  /** The first one found first. */
  found: readonly string[];
}

export interface Reliability {
  /** Cases in which nothing was predicted, or nothing was found: they are in none of the figures. */
  notPredicted: number;
  nothingFound: number;
  /** By the place that was found first. */
  hits: HitRates;
  /** Cases whose place was not among the predicted ones; they have no log score. */
  notListed: number;
  logScoreBits: number | null;
  curve: ReliabilityPoint[];
  band: { coverage: number; resamples: number; seed: number };
}

/** So many places of each case are forecasts for the curve: those that a dispatcher reads. */
const PLACES_READ = 3;

const BAND = { coverage: 0.9, resamples: 500, seed: 1 };

/** How right the predictions were. Forecasts of the curve are the first places of each case, each come true or not. */
export function reliabilityOf(cases: readonly ReliabilityCase[]): Reliability {
  const forecasts: Forecast[] = [];
  const ranks: (number | null)[] = [];
  const chances: number[] = [];
  let [notPredicted, nothingFound] = [0, 0];
  for (const { predicted, found } of cases) {
    const [first] = found;
    if (first === undefined) nothingFound++;
    else if (predicted === null) notPredicted++;
    else {
      const at = predicted.findIndex(({ place }) => place === first);
      const chance = predicted[at]?.probability ?? 0;
      ranks.push(at < 0 ? null : at + 1);
      if (chance > 0) chances.push(Math.min(1, chance));
      for (const { place, probability } of predicted.slice(0, PLACES_READ)) {
        forecasts.push({ stated: Math.min(1, probability), cameTrue: found.includes(place) });
      }
    }
  }
  const { seed, ...options } = BAND;
  return {
    notPredicted,
    nothingFound,
    hits: hitRates(ranks),
    notListed: ranks.length - chances.length,
    logScoreBits: logScoreBits(chances),
    curve: reliabilityCurve(forecasts, { ...options, random: seededRandom(seed) }),
    band: BAND,
  };
}
