import { requireWithin } from './statistics-error.js';
import { shrunkRates } from './shrunk-rates.js';

/** What is on record of one fault mode of one component. */
export interface ModeRecord {
  /** Make of cable, kind of terminal, model of station. */
  className: string;
  mode: string;
  site: string;
  component: string;
  /** Years, or metre-years for cable. */
  exposure: number;
  /** Repairs, split by `splitFinding`. */
  events: number;
}

/** What is thought of a class before its record: so many events in events/rate of exposure. */
export interface ClassPrior {
  rate: number;
  events: number;
}

export interface LearnedRate {
  className: string;
  mode: string;
  site: string;
  component: string;
  /** All per unit of exposure. */
  classRate: number;
  siteRate: number;
  rate: number;
}

/**
 * Rates of every component's modes: Gamma-Poisson for the class, the site's shrunk towards its
 * class, the component's towards its site (fault model, section 7). A component's rate thus follows
 * its own record only as far as components of its class are seen to differ.
 * Answers in the order of the records. Throws {@link StatisticsError} naming the record or prior.
 */
export function learnRates(
  records: readonly ModeRecord[],
  priorOf: (className: string, mode: string) => ClassPrior,
): LearnedRate[] {
  records.forEach(({ exposure, events }, i) => {
    requireWithin(`records/${i}/exposure`, exposure, 0, Infinity);
    requireWithin(`records/${i}/events`, events, 0, Infinity);
  });
  const learned = new Map<ModeRecord, LearnedRate>();
  for (const ofMode of grouped(records, ({ className, mode }) => key(className, mode))) {
    for (const rate of learnMode(ofMode, priorOf)) learned.set(rate.record, rate.learned);
  }
  return records.flatMap((record) => learned.get(record) ?? []);
}

function learnMode(
  records: ModeRecord[],
  priorOf: (className: string, mode: string) => ClassPrior,
): { record: ModeRecord; learned: LearnedRate }[] {
  const { className = '', mode = '' } = records[0] ?? {};
  const prior = priorOf(className, mode);
  requireWithin(`priors/${className}/${mode}/rate`, prior.rate, Number.MIN_VALUE, Infinity);
  requireWithin(`priors/${className}/${mode}/events`, prior.events, Number.MIN_VALUE, Infinity);
  const all = total(records);
  const classRate = (prior.events + all.events) / (prior.events / prior.rate + all.exposure);

  const sites = grouped(records, ({ site }) => site);
  const siteRates = shrunkRates(sites.map((site) => ({ ...total(site), parentRate: classRate })));
  const placed = sites.flatMap((site, i) =>
    site.map((record) => ({ record, siteRate: siteRates[i] ?? classRate })),
  );
  const rates = shrunkRates(
    placed.map(({ record, siteRate }) => {
      return { exposure: record.exposure, events: record.events, parentRate: siteRate };
    }),
  );
  return placed.map(({ record, siteRate }, i) => {
    const { site, component } = record;
    const rate = rates[i] ?? siteRate;
    return { record, learned: { className, mode, site, component, classRate, siteRate, rate } };
  });
}

function total(records: readonly ModeRecord[]) {
  return {
    exposure: records.reduce((sum, { exposure }) => sum + exposure, 0),
    events: records.reduce((sum, { events }) => sum + events, 0),
  };
}

function grouped(records: readonly ModeRecord[], keyOf: (record: ModeRecord) => string) {
  const groups = new Map<string, ModeRecord[]>();
  for (const record of records) {
    const group = groups.get(keyOf(record));
    if (group) group.push(record);
    else groups.set(keyOf(record), [record]);
  }
  return [...groups.values()];
}

const key = (...parts: string[]) => JSON.stringify(parts);
