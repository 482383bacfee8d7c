import { type Component, DEFAULT_RATES } from '../locator/index.js';
import { componentRate, learnClass, type ModeExperience } from '../statistics/learn-rates.js';
import type { AsBuilt } from '../sites/as-built.js';
import { type ClassedComponent, componentsOfSite } from './component-classes.js';
import type { ClassAtSite } from './class-at-site.js';
import { daysBetween } from './exposure.js';
import { componentKey } from './work-done.js';

/** So many events the model's own rate counts for. An invented starting value. */
export const PRIOR_EVENTS = 4;

const DAYS_PER_YEAR = 365.25;

/** Goes up with whatever makes other rates of the same record: what was learned before is then learned again. */
const LEARNED_BY = 2;

type Table = Readonly<Record<string, number>>;

/** Faults per year by mode (cable: per metre), by the firm's record; the model's where it has none. */
export type RatesOf = (component: Component) => Table;

export const MODEL_RATES: RatesOf = (component) => DEFAULT_RATES[groupOf(component)];

/** What a firm's record says of one mode of one class of components, whatever site they are at. */
export interface LearnedClass {
  className: string;
  mode: string;
  /** See `learnedFrom`; else it is to be learned again. */
  learnedFrom: string;
  /** How long there is a record. */
  years: number;
  classRate: number;
  shares: number[];
  /** By site: its rate, and the events of its components that had any. */
  sites: Record<string, { rate: number; events: Record<string, number> }>;
}

/** The same as far as it is about one site; null where the class is not there. */
export interface LearnedAtSite extends Pick<
  LearnedClass,
  'className' | 'mode' | 'years' | 'classRate' | 'shares'
> {
  siteRate: number | null;
  events: Record<string, number> | null;
}

/** The same as far as it is about some sites. */
export interface LearnedAtSites extends Omit<LearnedClass, 'learnedFrom'> {
  /** What the whole firm found of the class. */
  classEvents: number;
}

/** The same as far as it is about one of them. */
export function learnedAtSite(learned: readonly LearnedAtSites[], siteId: string): LearnedAtSite[] {
  return learned.map(({ className, mode, years, classRate, shares, sites }) => {
    const { rate = null, events = null } = sites[siteId] ?? {};
    return { className, mode, years, classRate, shares, siteRate: rate, events };
  });
}

/** A class of components, by the record of every site that has it, in the order of their ids. */
export interface ClassOfFirm {
  className: string;
  years: number;
  sites: readonly (ClassAtSite & { siteId: string })[];
}

/** How long a firm keeps a record. */
export function yearsOfRecord(since: Date, today: Date): number {
  return daysBetween(since, today) / DAYS_PER_YEAR;
}

/** What the rates of every class go by besides the record of the class. */
export function learnedFrom(years: number): string {
  return `${LEARNED_BY}-${years}`;
}

/**
 * The rates of a class of a firm's components, mode by mode, by what it found since it keeps a record (fault model, section 7). Only
 * what was mended counts: that it works again after hands were on it is no repair.
 */
export function learnModes({ className, years, sites }: ClassOfFirm): LearnedClass[] {
  const [first] = sites;
  if (first === undefined) return [];
  return Object.entries<number>(DEFAULT_RATES[first.group]).map(([mode, rate]) => {
    const ofMode = sites.flatMap((site) => recordsOf(site, mode, years));
    const prior = { rate, events: PRIOR_EVENTS };
    const { classRate, siteRates, shares } = learnClass(ofMode, prior);
    const atSites: LearnedClass['sites'] = Object.fromEntries(
      [...siteRates].map(([site, siteRate]) => [site, { rate: siteRate, events: {} }]),
    );
    for (const { siteId, repaired } of sites)
      for (const { component, events } of repaired) {
        const atSite = atSites[siteId];
        if (atSite !== undefined && mode in events) atSite.events[component] = events[mode] ?? 0;
      }
    return {
      className,
      mode,
      learnedFrom: learnedFrom(years),
      years,
      classRate,
      shares,
      sites: atSites,
    };
  });
}

/** Those without an event first, as many as there are of a kind, then the others one by one. */
function recordsOf(
  { className, siteId: site, exposures, repaired }: ClassOfFirm['sites'][number],
  mode: string,
  years: number,
): ModeExperience[] {
  const one = { className, mode, site };
  const failed = repaired.filter(({ events }) => (events[mode] ?? 0) > 0);
  const others = exposures.map(([yearlyExposure, components]) => ({
    ...one,
    components: components - failed.filter((each) => each.yearlyExposure === yearlyExposure).length,
    exposure: years * yearlyExposure,
    events: 0,
  }));
  return [
    ...others.filter(({ components }) => components > 0),
    ...failed.map(({ yearlyExposure, events }) => {
      return { ...one, components: 1, exposure: years * yearlyExposure, events: events[mode] ?? 0 };
    }),
  ];
}

export function learnedKey({ className, mode }: { className: string; mode: string }): string {
  return JSON.stringify([className, mode]);
}

/** The rates of a site's components, by what is learned of their classes. */
export function ratesAtSite(learned: readonly LearnedAtSite[], asBuilt: AsBuilt): RatesOf {
  if (learned.length === 0) return MODEL_RATES;
  const classes = new Map(learned.map((one) => [learnedKey(one), one]));
  const components = new Map(
    componentsOfSite(asBuilt).map((one) => [componentKey(one.component), one]),
  );
  return (component) => {
    const key = componentKey(component);
    const classed = components.get(key);
    if (classed === undefined) return MODEL_RATES(component);
    const { className, group, yearlyExposure } = classed;
    const rates = Object.entries(DEFAULT_RATES[group]).map(([mode, ofModel]) => {
      const known = classes.get(learnedKey({ className, mode }));
      return [mode, known === undefined ? ofModel : rateBy(known, key, yearlyExposure)];
    });
    return Object.fromEntries(rates) as Table;
  };
}

function rateBy(
  { years, classRate, shares, siteRate, events }: LearnedAtSite,
  key: string,
  yearlyExposure: number,
): number {
  const siteRates = new Map(siteRate === null ? [] : [['', siteRate]]);
  const record = { site: '', exposure: years * yearlyExposure, events: events?.[key] ?? 0 };
  return componentRate({ classRate, siteRates, shares }, record);
}

function groupOf({ component }: Component): ClassedComponent['group'] {
  switch (component) {
    case 'head-end':
      return 'headEnd';
    case 'cable':
      return 'cablePerMetre';
    case 'junction-in':
    case 'junction-out':
      return 'junction';
    case 'port':
    case 'station':
      return component;
  }
}
