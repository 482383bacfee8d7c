import { componentsOfSite } from '../history/component-classes.js';
import {
  learnedAtSite,
  type LearnedAtSites,
  learnedKey,
  PRIOR_EVENTS,
  ratesAtSite,
} from '../history/learned-rates.js';
import { seededDraws, type SeededDraws } from '../statistics/seeded-draws.js';
import { timeOf, usualUpkeepMinutes, wayOf } from './drawn-minutes.js';
import type { FirmCosts, ReviewedSite } from './review-question.js';
import type { ExpectedPartDto, RangeDto, ShouldCostDto } from './should-cost.dto.js';

/** Of the intervals: one year in ten is below, one above. */
const COVERAGE = 0.8;
const DRAWS = 2000;
const SEED = 1;

/** Named in the answer. */
const MOST_PARTS = 100;

/** Before there is a record: of four mended faults three took a call-out; and one call-out in vain came with them. Invented starting values. */
const MENDED_ON_CALL_OUT = 3;
const MENDED_OTHERWISE = 1;
const IN_VAIN = 1;

export interface ShouldCostQuestion {
  sites: ReviewedSite[];
  rates: LearnedAtSites[];
  costs: FirmCosts;
  /** Planned visits to each site. */
  visitsPerYear: number;
  /** Whether parts are the firm's to pay. */
  withParts: boolean;
  /** Of a year, in minor units, in the currency of the prices; null: not asked about. */
  feeMinor: number | null;
}

/** A year as it may go, for one site. */
interface DrawnYear {
  callOuts: number;
  minutes: number;
  travelMinutes: number;
  mended: number;
}

/**
 * What the next year takes at some sites, drawn again and again from what the firm's record says and how little it may
 * know: faults are Poisson by the learned rates, each class of parts off by a gamma of as many events as it was learned
 * from; some are mended on call-outs, some call-outs are in vain; minutes of a visit are log-normal around those of the
 * record and of the firm's work times, and so are ways; parts are Poisson by those of earlier mendings. A class is off at all sites at once.
 */
export function shouldCost(question: ShouldCostQuestion, count = DRAWS): ShouldCostDto {
  const { sites, costs } = question;
  const draws = seededDraws(SEED);
  const classes = classesOf(sites, question.rates);
  const years = sites.map((): DrawnYear[] => []);
  const parts: number[] = [];
  const used = usedParts(costs);
  const priced = used.filter(({ minor }) => minor !== null);
  const callOutTime = timeOf(costs.callOuts, costs.usualCallOutMinutes);
  const callOutWay = wayOf(costs.callOuts);
  const upkeepWay = wayOf(costs.upkeep);
  const upkeepTimes = sites.map((site) => timeOf(costs.upkeep, usualUpkeepMinutes(site, costs)));
  for (let draw = 0; draw < count; draw++) {
    const faults = sites.map(() => 0);
    for (const { shape, yearly } of classes) {
      const factor = draws.gamma(shape, shape);
      yearly.forEach((rate, s) => (faults[s] = (faults[s] ?? 0) + rate * factor));
    }
    const takes = share(costs, draws);
    const callOutMinutes = callOutTime(draws, draws.normal());
    const upkeepDeviate = draws.normal();
    // A firm whose ways are longer than they were has longer ones to all of its work.
    const wayDeviate = draws.normal();
    const ways = {
      callOutWay: callOutWay(draws, wayDeviate),
      upkeepWay: upkeepWay(draws, wayDeviate),
    };
    sites.forEach((_site, s) => {
      const upkeepMinutes = upkeepTimes[s]?.(draws, upkeepDeviate) ?? callOutMinutes;
      years[s]?.push(
        yearOf(
          faults[s] ?? 0,
          { ...question, ...ways, takes, callOutMinutes, upkeepMinutes },
          draws,
        ),
      );
    });
    const mended = years.reduce((sum, own) => sum + (own[draw]?.mended ?? 0), 0);
    parts.push(partsMinor(priced, costs.mendings, mended, draws));
  }
  return told(question, years, parts, used);
}

/** Faults a year of each class and mode at each site, by the learned rates. */
function expectedBySite(
  sites: readonly ReviewedSite[],
  rates: readonly LearnedAtSites[],
): Map<string, number>[] {
  return sites.map(({ siteId, asBuilt }) => {
    const ratesOf = ratesAtSite(learnedAtSite(rates, siteId), asBuilt);
    const byClass = new Map<string, number>();
    for (const { component, className, yearlyExposure } of componentsOfSite(asBuilt)) {
      for (const [mode, rate] of Object.entries(ratesOf(component))) {
        const key = learnedKey({ className, mode });
        byClass.set(key, (byClass.get(key) ?? 0) + rate * yearlyExposure);
      }
    }
    return byClass;
  });
}

/** Each class and mode with what is expected of it by site, and how much is known of it: the events that its rate stands on. */
function classesOf(
  sites: readonly ReviewedSite[],
  rates: readonly LearnedAtSites[],
): { shape: number; yearly: number[] }[] {
  const expected = expectedBySite(sites, rates);
  const events = new Map(rates.map((one) => [learnedKey(one), one.classEvents]));
  const keys = [...new Set(expected.flatMap((own) => [...own.keys()]))];
  return keys.map((key) => ({
    shape: PRIOR_EVENTS + (events.get(key) ?? 0),
    yearly: expected.map((own) => own.get(key) ?? 0),
  }));
}

/** Which share of mended faults takes a call-out, and how many call-outs in vain come with each. */
function share({ mendings, callOuts, callOutsWithMending }: FirmCosts, draws: SeededDraws) {
  const onCallOut = Math.min(callOutsWithMending, mendings);
  const inVain = Math.max(0, callOuts.visits - callOutsWithMending);
  return {
    onCallOut: draws.beta(MENDED_ON_CALL_OUT + onCallOut, MENDED_OTHERWISE + mendings - onCallOut),
    inVain: draws.gamma(IN_VAIN + inVain, MENDED_ON_CALL_OUT + MENDED_OTHERWISE + mendings),
  };
}

interface YearTerms extends Pick<ShouldCostQuestion, 'visitsPerYear'> {
  takes: ReturnType<typeof share>;
  callOutMinutes: () => number;
  upkeepMinutes: () => number;
  callOutWay: () => number;
  upkeepWay: () => number;
}

function yearOf(faults: number, terms: YearTerms, draws: SeededDraws): DrawnYear {
  const { visitsPerYear, takes, callOutMinutes, upkeepMinutes, callOutWay, upkeepWay } = terms;
  const mendedThere = draws.poisson(faults * takes.onCallOut);
  const mendedOtherwise = draws.poisson(faults * (1 - takes.onCallOut));
  const mended = mendedThere + mendedOtherwise;
  const callOuts = mendedThere + draws.poisson(mended * takes.inVain);
  return {
    callOuts,
    mended,
    minutes: sumOf(callOuts, callOutMinutes) + sumOf(visitsPerYear, upkeepMinutes),
    travelMinutes: sumOf(callOuts, callOutWay) + sumOf(visitsPerYear, upkeepWay),
  };
}

interface UsedPart {
  name: string;
  /** In the mendings of the record. */
  quantity: number;
  /** Of one; null: the firm has no price for it. */
  minor: number | null;
}

function usedParts({ prices, parts }: FirmCosts): UsedPart[] {
  const minorOf = new Map<string, number>();
  // Of two with one name, the first counts.
  for (const { name, minor } of prices?.parts.toReversed() ?? []) {
    minorOf.set(name.toLowerCase(), minor);
  }
  return parts.map(({ name, quantity }) => {
    return { name, quantity, minor: minorOf.get(name.toLowerCase()) ?? null };
  });
}

function partsMinor(
  used: readonly UsedPart[],
  mendings: number,
  mended: number,
  draws: SeededDraws,
): number {
  if (mendings === 0) return 0;
  return used.reduce((sum, { quantity, minor }) => {
    return minor === null
      ? sum
      : sum + minor * draws.poisson(mended * draws.gamma(quantity, mendings));
  }, 0);
}

function told(
  { sites, costs, withParts, feeMinor }: ShouldCostQuestion,
  years: readonly (readonly DrawnYear[])[],
  parts: readonly number[],
  used: readonly UsedPart[],
): ShouldCostDto {
  const { prices } = costs;
  const costOf = ({ minutes, travelMinutes }: DrawnYear) =>
    prices === null
      ? 0
      : (minutes * prices.hourMinor + travelMinutes * prices.travelHourMinor) / 60;
  const all = parts.map((minor, draw) => {
    const own = years.flatMap((list) => list[draw] ?? []);
    const sum = (of: (year: DrawnYear) => number) =>
      own.reduce((total, year) => total + of(year), 0);
    return {
      callOuts: sum(({ callOuts }) => callOuts),
      minutes: sum(({ minutes }) => minutes),
      travelMinutes: sum(({ travelMinutes }) => travelMinutes),
      mended: sum(({ mended }) => mended),
      cost: sum(costOf) + (withParts ? minor : 0),
    };
  });
  const mendedEach = all.reduce((sum, { mended }) => sum + mended, 0) / all.length;
  const priced = (values: readonly number[]) => (prices === null ? null : rangeOf(values));
  return {
    coverage: COVERAGE,
    draws: parts.length,
    seed: SEED,
    currency: prices?.currency ?? null,
    callOuts: rangeOf(all.map(({ callOuts }) => callOuts)),
    minutesOnSite: rangeOf(all.map(({ minutes }) => minutes)),
    travelMinutes: rangeOf(all.map(({ travelMinutes }) => travelMinutes)),
    partsMinor: priced(parts),
    costMinor: priced(all.map(({ cost }) => cost)),
    feeMinor,
    chanceFeeCovers:
      feeMinor === null || prices === null
        ? null
        : all.filter(({ cost }) => cost <= feeMinor).length / all.length,
    parts: expectedParts(used, mendedEach / Math.max(1, costs.mendings)),
    partsNotNamed: Math.max(0, used.length - MOST_PARTS),
    sites: sites.map(({ siteId }, s) => ({
      siteId,
      callOuts: rangeOf((years[s] ?? []).map(({ callOuts }) => callOuts)),
      minutesOnSite: rangeOf((years[s] ?? []).map(({ minutes }) => minutes)),
      labourMinor: priced((years[s] ?? []).map(costOf)),
    })),
    learnedFrom: {
      callOuts: costs.callOuts.visits,
      upkeepVisits: costs.upkeep.visits,
      mendings: costs.mendings,
    },
  };
}

/** The dearest of the year first, then those without a price, the most used first. */
function expectedParts(used: readonly UsedPart[], ofRecord: number): ExpectedPartDto[] {
  const cost = ({ quantity, minor }: UsedPart) => (minor === null ? -1 : minor * quantity);
  return used
    .toSorted((one, other) => cost(other) - cost(one) || other.quantity - one.quantity)
    .slice(0, MOST_PARTS)
    .map(({ name, quantity, minor }) => ({ name, quantity: quantity * ofRecord, minor }));
}

function sumOf(count: number, draw: () => number): number {
  let sum = 0;
  for (let i = 0; i < count; i++) sum += draw();
  return sum;
}

function rangeOf(values: readonly number[]): RangeDto {
  const sorted = values.toSorted((one, other) => one - other);
  const at = (share_: number) => sorted[Math.round(share_ * (sorted.length - 1))] ?? 0;
  return {
    mean: values.reduce((sum, value) => sum + value, 0) / values.length,
    low: at((1 - COVERAGE) / 2),
    median: at(0.5),
    high: at((1 + COVERAGE) / 2),
  };
}
