import { type Component, DEFAULT_RATES } from '../locator/index.js';
import { learnRates, type ModeRecord } from '../statistics/learn-rates.js';
import type { AsBuilt } from '../sites/as-built.js';
import { type ClassedComponent, componentsOfSite } from './component-classes.js';
import { daysBetween } from './exposure.js';
import { componentKey, componentsOf, type Found } from './work-done.js';

/** So many events the model's own rate counts for. An invented starting value. */
const PRIOR_EVENTS = 4;

const DAYS_PER_YEAR = 365.25;

export interface SiteRecorded {
  siteId: string;
  asBuilt: AsBuilt;
  /** What was found on its closed tickets. */
  found: readonly Found[];
}

type Table = Readonly<Record<string, number>>;

/** Faults per year by mode (cable: per metre), by the firm's record; the model's where it has none. */
export type RatesOf = (siteId: string, component: Component) => Table;

export const MODEL_RATES: RatesOf = (_, component) => DEFAULT_RATES[groupOf(component)];

/**
 * The rates of every component of a firm, by what it found since it keeps a record (fault model, section 7). Only what was
 * mended counts: that it works again after hands were on it is no repair. A firm that found nothing yet has the model's
 * rates to the digit; what has been found at a part that is no longer on the drawing is no longer counted.
 */
export function ratesByRecord(
  sites: readonly SiteRecorded[],
  recordedSince: Date,
  today: Date,
): RatesOf {
  const repaired = sites.map(({ found }) => found.filter(({ mending }) => mending !== null));
  if (repaired.every((found) => found.length === 0)) return MODEL_RATES;
  const records = sites.flatMap(({ siteId, asBuilt }, s) => {
    const events = eventsByComponent(repaired[s] ?? []);
    const years = daysBetween(recordedSince, today) / DAYS_PER_YEAR;
    return componentsOfSite(asBuilt).flatMap((one) => recordsOf(siteId, one, years, events));
  });
  const groups = new Map(records.map(({ className, group }) => [className, group]));
  const learned = learnRates(records, (className, mode) => {
    const table: Table = DEFAULT_RATES[groups.get(className) ?? 'junction'];
    return { rate: table[mode] ?? 0, events: PRIOR_EVENTS };
  });
  const tables = new Map<string, Record<string, number>>();
  for (const { site, component, mode, rate } of learned) {
    const key = `${site} ${component}`;
    const table = tables.get(key) ?? {};
    table[mode] = rate;
    tables.set(key, table);
  }
  return (siteId, component) =>
    tables.get(`${siteId} ${componentKey(component)}`) ?? MODEL_RATES(siteId, component);
}

function recordsOf(
  site: string,
  { component, className, group, yearlyExposure }: ClassedComponent,
  years: number,
  events: ReadonlyMap<string, number>,
): (ModeRecord & Pick<ClassedComponent, 'group'>)[] {
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
