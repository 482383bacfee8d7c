import { requireWithin } from './statistics-error.js';
import { shapeShares, shrunkRate, shrunkRates } from './shrunk-rates.js';

/** What is on record of one fault mode of one component, or of several of a site that are alike. */
export interface ModeExperience {
  /** Make of cable, kind of terminal, model of station. */
  className: string;
  mode: string;
  site: string;
  /** How many. */
  components: number;
  /** Of each: years, or metre-years for cable. */
  exposure: number;
  /** Of each: repairs, split by `splitFinding`. */
  events: number;
}

/** What is thought of a class before its record: so many events in events/rate of exposure. */
export interface ClassPrior {
  rate: number;
  events: number;
}

/** What is learned of one mode of a class; `shrunkRate` by its shares gives the rate of each of its components. */
export interface ClassRates {
  /** All per unit of exposure. */
  classRate: number;
  siteRates: ReadonlyMap<string, number>;
  /** How strongly components are shrunk towards their site: see `shapeShares`. */
  shares: number[];
}

/** Records of one class and mode that must be as they are said to be; throws {@link StatisticsError} naming what is not. */
export function checkExperience(experience: readonly ModeExperience[]): void {
  experience.forEach(({ exposure, events }, i) => {
    requireWithin(`experience/${i}/exposure`, exposure, 0, Infinity);
    requireWithin(`experience/${i}/events`, events, 0, Infinity);
  });
}

/**
 * Rates of one mode of a class: Gamma-Poisson for the class, the site's shrunk towards its class, the component's towards
 * its site (fault model, section 7). A component's rate thus follows its own record only as far as components of its class
 * are seen to differ. Throws {@link StatisticsError} naming the record or prior.
 */
export function learnClass(experience: readonly ModeExperience[], prior: ClassPrior): ClassRates {
  checkExperience(experience);
  const { className = '', mode = '' } = experience[0] ?? {};
  requireWithin(`priors/${className}/${mode}/rate`, prior.rate, Number.MIN_VALUE, Infinity);
  requireWithin(`priors/${className}/${mode}/events`, prior.events, Number.MIN_VALUE, Infinity);
  const all = total(experience);
  const classRate = (prior.events + all.events) / (prior.events / prior.rate + all.exposure);
  const sites = [...grouped(experience, ({ site }) => site)];
  const rates = shrunkRates(
    sites.map(([, ofSite]) => ({ ...total(ofSite), parentRate: classRate })),
  );
  const siteRates = new Map(sites.map(([site], i) => [site, rates[i] ?? classRate]));
  const shares = shapeShares(
    sites.flatMap(([site, ofSite]) =>
      ofSite.map(({ components: count, exposure, events }) => {
        return { count, exposure, events, parentRate: siteRates.get(site) ?? classRate };
      }),
    ),
  );
  return { classRate, siteRates, shares };
}

/** Of one component, after its class. */
export function componentRate(
  { classRate, siteRates, shares }: ClassRates,
  { site, exposure, events }: Pick<ModeExperience, 'site' | 'exposure' | 'events'>,
): number {
  return shrunkRate(shares, { exposure, events, parentRate: siteRates.get(site) ?? classRate });
}

function total(experience: readonly ModeExperience[]) {
  return {
    exposure: experience.reduce((sum, { components, exposure }) => sum + components * exposure, 0),
    events: experience.reduce((sum, { components, events }) => sum + components * events, 0),
  };
}

/** Lists by key, in the order in which the keys first come. */
export function grouped<One>(
  list: readonly One[],
  keyOf: (one: One) => string,
): Map<string, One[]> {
  const groups = new Map<string, One[]>();
  for (const one of list) {
    const key = keyOf(one);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return groups;
}
