import { describe, expect, it } from '@jest/globals';
import { componentsOfSite } from '../history/component-classes.js';
import {
  type LearnedAtSites,
  type LearnedClass,
  learnModes,
  MODEL_RATES,
} from '../history/learned-rates.js';
import { classesAtSite } from '../history/class-at-site.js';
import type { Repair } from '../history/ticket-experience.js';
import { componentKey } from '../history/work-done.js';
import { grouped } from '../statistics/learn-rates.js';
import { blankNode } from '../sites/as-built-fields.js';
import { NOTHING_DRAWN } from '../sites/as-built.js';
import { type SeededDraws, seededDraws } from '../statistics/seeded-draws.js';
import { USUAL_WORK_TIMES } from '../work-times/work-times.js';
import type { FirmCosts, ReviewedSite, TakenMinutes } from './review-question.js';
import { shouldCost } from './should-cost.js';

const NOTHING_TAKEN: TakenMinutes = {
  visits: 0,
  meanMinutes: null,
  meanLog: null,
  logDeviation: null,
  meanTravelMinutes: null,
};

const NO_RECORD: FirmCosts = {
  prices: {
    currency: 'EUR',
    hourMinor: 6000,
    travelHourMinor: 3000,
    parts: [{ name: 'Wire ferrule', minor: 40 }],
  },
  times: USUAL_WORK_TIMES,
  usualCallOutMinutes: 60,
  callOuts: NOTHING_TAKEN,
  upkeep: NOTHING_TAKEN,
  mendings: 0,
  parts: [],
  callOutsWithMending: 0,
};

function siteOf(number: number, stations: number): ReviewedSite {
  const nodes = Array.from({ length: stations }, (_, i) => ({
    ...blankNode(`A${i + 1}`, 12),
    fedFrom: i === 0 ? null : `A${i}`,
    cableType: '4 x 0.5',
    unitModel: 'RS-2',
  }));
  const trunks = [{ trunk: 'A', name: 'A', port: null, nodes }];
  return {
    siteId: `site ${number}`,
    name: `Site ${number}`,
    zone: 'Etc/UTC',
    asBuilt: { ...NOTHING_DRAWN, trunks },
  };
}

const FERRULES = { name: 'wire ferrule', quantity: 1 };

const SITES = [4, 6, 8].map((stations, number) => siteOf(number, stations));
const QUESTION = { sites: SITES, rates: [], visitsPerYear: 2, withParts: true, feeMinor: 100_000 };

describe('what a contract should cost', () => {
  it('is by the model’s rates where nothing is on record: call-outs that the shares make of its faults', () => {
    const faults = SITES.reduce((sum, site) => {
      return (
        sum +
        componentsOfSite(site.asBuilt).reduce((total, { component, yearlyExposure }) => {
          const rates = Object.values(MODEL_RATES(component));
          return total + yearlyExposure * rates.reduce((all, rate) => all + rate, 0);
        }, 0)
      );
    }, 0);
    const told = shouldCost({ ...QUESTION, costs: NO_RECORD });
    // Three of four on a call-out, and one in vain for every four.
    expect(told.callOuts.mean / faults).toBeCloseTo(1, 1);
    expect(told.sites).toHaveLength(3);
    expect(told.sites.reduce((sum, { callOuts }) => sum + callOuts.mean, 0)).toBeCloseTo(
      told.callOuts.mean,
      6,
    );
    expect(told.costMinor?.low).toBeLessThan(told.costMinor?.median ?? 0);
    expect(told.chanceFeeCovers).toBeGreaterThan(0);
    expect(shouldCost({ ...QUESTION, costs: NO_RECORD })).toEqual(told);
  });

  it('has no amounts without prices, and no more than the visits where nothing fails', () => {
    const costs = { ...NO_RECORD, prices: null };
    const told = shouldCost({ ...QUESTION, costs });
    expect([told.costMinor, told.partsMinor, told.currency, told.chanceFeeCovers]).toEqual([
      null,
      null,
      null,
      null,
    ]);
    expect(shouldCost({ ...QUESTION, costs, sites: [] }).minutesOnSite.high).toBe(0);
  });

  it('looks up each price once, however many years are drawn', () => {
    let asked = 0;
    const parts = Array.from({ length: 300 }, (_, i) => ({
      minor: i,
      get name() {
        asked++;
        return `Part ${i}`;
      },
    }));
    const prices = { currency: 'EUR', hourMinor: 6000, travelHourMinor: 3000, parts };
    const used = parts.map((_, i) => ({ name: `part ${i}`, quantity: 1 }));
    const costs = { ...NO_RECORD, prices, mendings: 100, parts: used };
    expect(shouldCost({ ...QUESTION, costs }, 50).partsMinor?.mean).toBeGreaterThan(0);
    expect(asked).toBeLessThanOrEqual(2 * parts.length);
  });

  it('names a hundred parts at most, the dearest of the year first, and says how many more there are', () => {
    const used = Array.from({ length: 350 }, (_, i) => ({ name: `part ${i}`, quantity: 1 + i }));
    const costs = { ...NO_RECORD, mendings: 100, parts: [...used, FERRULES] };
    const told = shouldCost({ ...QUESTION, costs }, 50);
    expect(told.parts).toHaveLength(100);
    expect(told.partsNotNamed).toBe(251);
    expect(told.parts.slice(0, 3)).toMatchObject([
      { name: 'wire ferrule', minor: 40 },
      { name: 'part 349', minor: null },
      { name: 'part 348', minor: null },
    ]);
    const few = shouldCost({ ...QUESTION, costs: { ...costs, parts: [FERRULES] } }, 50);
    expect([few.parts.length, few.partsNotNamed]).toEqual([1, 0]);
  });

  // Generator = model: what is drawn here is what the intervals say that they are about.
  it('covers what it says: of simulated firms’ next years about eight in ten are within 80 %', () => {
    const draws = seededDraws(20);
    const firms = 80;
    const covered = { callOuts: 0, minutesOnSite: 0, travelMinutes: 0, costMinor: 0 };
    for (let firm = 0; firm < firms; firm++) {
      const { rates, costs, next } = simulatedFirm(draws);
      const told = shouldCost({ ...QUESTION, rates, costs }, 100);
      for (const name of ['callOuts', 'minutesOnSite', 'travelMinutes', 'costMinor'] as const) {
        const range = told[name];
        if (range !== null && range.low <= next[name] && next[name] <= range.high) covered[name]++;
      }
    }
    // Three standard errors of 80 are 13 in a hundred; whole numbers are covered a little more often.
    for (const count of Object.values(covered)) {
      expect(count / firms).toBeGreaterThan(0.67);
      expect(count / firms).toBeLessThan(0.94);
    }
  });
});

const YEARS = 2;

/** A firm with its true rates, shares and pace, two years of its record, and the year that follows. */
function simulatedFirm(draws: SeededDraws) {
  const truth = { onCallOut: draws.beta(3, 1), inVain: draws.gamma(1, 4), ferrules: 2 };
  const pace = { callOut: draws.normal(), upkeep: draws.normal() };
  const wayMean = Math.log(60) + (0.5 / Math.sqrt(5)) * draws.normal();
  const way = () => Math.exp(wayMean - 0.125 + 0.5 * draws.normal());
  const factors = new Map<string, number>();
  const faults = (years: number): Repair[][] =>
    SITES.map(({ asBuilt }) =>
      componentsOfSite(asBuilt).flatMap(({ component, className, yearlyExposure }) =>
        Object.entries(MODEL_RATES(component)).flatMap(([mode, rate]) => {
          const key = `${className} ${mode}`;
          const factor = factors.get(key) ?? draws.gamma(4, 4);
          factors.set(key, factor);
          const count = draws.poisson(factor * rate * yearlyExposure * years);
          return Array.from({ length: count }, () => ({
            component: componentKey(component),
            mode,
            events: 1,
          }));
        }),
      ),
    );
  const minutes = (usual: number, deviate: number) =>
    Math.exp(Math.log(usual) - 0.18 + (0.6 / Math.sqrt(5)) * deviate + 0.6 * draws.normal());
  const happened = (found: readonly (readonly Repair[])[]) => {
    const mended = found.flat().length;
    let there = 0;
    for (let i = 0; i < mended; i++) if (uniform(draws) < truth.onCallOut) there++;
    const callOuts = there + draws.poisson(truth.inVain * mended);
    const taken = Array.from({ length: callOuts }, () => minutes(60, pace.callOut));
    return { mended, there, taken, ferrules: draws.poisson(truth.ferrules * mended) };
  };

  const found = faults(YEARS);
  const record = happened(found);
  const classes = SITES.flatMap(({ siteId, asBuilt }, s) =>
    classesAtSite(asBuilt, found[s] ?? []).map((one) => ({ siteId, ...one })),
  );
  const learned = [...grouped(classes, ({ className }) => className)].flatMap(
    ([className, sites]) => learnModes({ className, years: YEARS, sites }),
  );
  const costs: FirmCosts = {
    ...NO_RECORD,
    callOuts: { ...takenOf(record.taken), meanTravelMinutes: meanOf(record.taken.map(way)) },
    upkeep: NOTHING_TAKEN,
    mendings: record.mended,
    parts: record.ferrules === 0 ? [] : [{ name: 'wire ferrule', quantity: record.ferrules }],
    callOutsWithMending: record.there,
  };

  const year = happened(faults(1));
  const upkeep = SITES.flatMap(({ asBuilt }) => {
    const rooms = asBuilt.trunks.flatMap(({ nodes }) => nodes).length;
    return [1, 2].map(() => minutes(0.5 + 4 + 6 + 2 * rooms, pace.upkeep));
  });
  const minutesOnSite = [...year.taken, ...upkeep].reduce((sum, one) => sum + one, 0);
  const travel = [...year.taken, ...upkeep].reduce((sum) => sum + way(), 0);
  return {
    rates: record.mended === 0 ? [] : learned.map(withEvents),
    costs,
    next: {
      callOuts: year.taken.length,
      minutesOnSite,
      travelMinutes: travel,
      costMinor: minutesOnSite * 100 + travel * 50 + year.ferrules * 40,
    },
  };
}

function takenOf(minutes: readonly number[]): TakenMinutes {
  if (minutes.length === 0) return NOTHING_TAKEN;
  const logs = minutes.map(Math.log);
  const middle = logs.reduce((sum, one) => sum + one, 0) / logs.length;
  const squares = logs.reduce((sum, one) => sum + (one - middle) ** 2, 0);
  return {
    visits: minutes.length,
    meanMinutes: minutes.reduce((sum, one) => sum + one, 0) / minutes.length,
    meanLog: middle,
    logDeviation: logs.length < 2 ? null : Math.sqrt(squares / (logs.length - 1)),
    meanTravelMinutes: null,
  };
}

function meanOf(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, one) => sum + one, 0) / values.length;
}

function withEvents(learned: LearnedClass): LearnedAtSites {
  const events = Object.values(learned.sites).flatMap((site) => Object.values(site.events));
  return { ...learned, classEvents: events.reduce((sum, one) => sum + one, 0) };
}

function uniform(draws: SeededDraws): number {
  return draws.beta(1, 1);
}
