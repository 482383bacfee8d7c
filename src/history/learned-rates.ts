import { type Component, DEFAULT_RATES } from '../locator/index.js';
import {
  componentRate,
  grouped,
  learnClass,
  type ModeExperience,
} from '../statistics/learn-rates.js';
import type { AsBuilt } from '../sites/as-built.js';
import { type ClassedComponent, componentsOfSite } from './component-classes.js';
import { daysBetween } from './exposure.js';
import { componentKey, componentsOf, type Found } from './work-done.js';

/** So many events the model's own rate counts for. An invented starting value. */
export const PRIOR_EVENTS = 4;

const DAYS_PER_YEAR = 365.25;

/** Goes up with whatever makes other rates of the same record: what was learned before is then learned again. */
const LEARNED_BY = 1;

export interface SiteExperience {
  siteId: string;
  asBuilt: AsBuilt;
  /** What was found on its closed tickets. */
  found: readonly Found[];
}

type Table = Readonly<Record<string, number>>;

/** Faults per year by mode (cable: per metre), by the firm's record; the model's where it has none. */
export type RatesOf = (component: Component) => Table;

export const MODEL_RATES: RatesOf = (component) => DEFAULT_RATES[groupOf(component)];

/** What a firm's record says of one mode of one class of components, whatever site they are at. */
export interface LearnedClass {
  className: string;
  mode: string;
  /** Tells whether the record of the class is still the one that it was learned from. */
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

/** What is learned anew, and the names of all that holds: what else was learned once holds no more. */
export interface Learned {
  changed: LearnedClass[];
  all: { className: string; mode: string }[];
}

/**
 * The rates of every class of a firm's components, by what it found since it keeps a record (fault model, section 7). Only
 * what was mended counts: that it works again after hands were on it is no repair. A firm that found nothing yet has the
 * model's rates to the digit; what has been found at a part that is no longer on the drawing is no longer counted. A class
 * whose record is still the `known` one (by name and mode, see `learnedKey`) is not learned again.
 */
export function learnClasses(given: {
  sites: readonly SiteExperience[];
  recordedSince: Date;
  today: Date;
  known: Readonly<Record<string, string>>;
}): Learned {
  const { sites, recordedSince, today, known } = given;
  const repaired = sites.map(({ found }) => found.filter(({ mending }) => mending !== null));
  if (repaired.every((found) => found.length === 0)) return { changed: [], all: [] };
  const years = daysBetween(recordedSince, today) / DAYS_PER_YEAR;
  const records = sites.flatMap(({ siteId, asBuilt }, s) => {
    const events = eventsByComponent(repaired[s] ?? []);
    return componentsOfSite(asBuilt).flatMap((one) => recordsOf(siteId, one, years, events));
  });
  const changed: LearnedClass[] = [];
  const all: Learned['all'] = [];
  for (const [key, ofMode] of grouped(records, learnedKey)) {
    const [first] = ofMode;
    if (first === undefined) continue;
    const { className, mode, group } = first;
    all.push({ className, mode });
    const learnedFrom = experienceHash(ofMode);
    if (known[key] === learnedFrom) continue;
    const table: Table = DEFAULT_RATES[group];
    const prior = { rate: table[mode] ?? 0, events: PRIOR_EVENTS };
    const { classRate, siteRates, shares } = learnClass(ofMode, prior);
    const atSites: LearnedClass['sites'] = Object.fromEntries(
      [...siteRates].map(([site, rate]) => [site, { rate, events: {} }]),
    );
    for (const { site, component, events } of ofMode) {
      const atSite = atSites[site];
      if (events > 0 && atSite !== undefined) atSite.events[component] = events;
    }
    const learned = { className, mode, learnedFrom, years, classRate, shares };
    changed.push({ ...learned, sites: atSites });
  }
  return { changed, all };
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

type GroupExperience = ModeExperience & Pick<ClassedComponent, 'group'>;

function recordsOf(
  site: string,
  { component, className, group, yearlyExposure }: ClassedComponent,
  years: number,
  events: ReadonlyMap<string, number>,
): GroupExperience[] {
  const key = componentKey(component);
  return Object.keys(DEFAULT_RATES[group]).map((mode) => ({
    className,
    group,
    mode,
    site,
    component: key,
    exposure: years * yearlyExposure,
    events: events.get(`${key} ${mode}`) ?? 0,
  }));
}

/** Two sums of 32 bits over all that the rates are learned from, each by another prime. */
function experienceHash(records: readonly GroupExperience[]): string {
  let one = 0x811c9dc5;
  let other = 0x9dc5811c;
  const text = JSON.stringify(
    records.map(({ site, component, exposure, events }) => [site, component, exposure, events]),
  );
  for (let i = 0; i < text.length; i++) {
    one = Math.imul(one ^ text.charCodeAt(i), 0x01000193);
    other = Math.imul(other + text.charCodeAt(i), 0x85ebca6b) ^ (other >>> 13);
  }
  return [LEARNED_BY, text.length, one >>> 0, other >>> 0].join('-');
}

/** Events by component and mode: a finding counts once, spread where it was uncertain. */
function eventsByComponent(found: readonly Found[]): Map<string, number> {
  const events = new Map<string, number>();
  for (const { place, shares } of found)
    for (const share of shares) {
      const [component] = componentsOf(place).filter((one) => one.component === share.component);
      if (component === undefined) continue;
      const key = `${componentKey(component)} ${share.mode}`;
      events.set(key, (events.get(key) ?? 0) + share.events);
    }
  return events;
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
