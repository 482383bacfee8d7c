import type { AsBuilt } from '../sites/as-built.js';
import { type ClassedComponent, componentsOfSite } from './component-classes.js';
import type { Repair } from './ticket-experience.js';
import { componentKey } from './work-done.js';

/** What one site says of one class of its components: as much as there are kinds of them, not as there are rooms. */
export interface ClassAtSite {
  className: string;
  group: ClassedComponent['group'];
  /** What a year of a component counts, and how many count that; ascending. */
  exposures: [yearlyExposure: number, components: number][];
  /** Those that ever failed, by their key, in its order. */
  repaired: { component: string; yearlyExposure: number; events: Record<string, number> }[];
}

/** What has been found at a part that is no longer on the drawing is no longer counted. */
export function classesAtSite(asBuilt: AsBuilt, repairs: readonly Repair[]): ClassAtSite[] {
  const events = new Map<string, Record<string, number>>();
  for (const { component, mode, events: count } of repairs) {
    const known = events.get(component) ?? {};
    known[mode] = (known[mode] ?? 0) + count;
    events.set(component, known);
  }
  const classes = new Map<string, CountedClass>();
  for (const { component, className, group, yearlyExposure } of componentsOfSite(asBuilt)) {
    const one = classes.get(className) ?? blank(className, group);
    classes.set(className, one);
    one.counts.set(yearlyExposure, (one.counts.get(yearlyExposure) ?? 0) + 1);
    const key = componentKey(component);
    const own = events.get(key);
    if (own !== undefined)
      one.repaired.push({ component: key, yearlyExposure, events: sorted(own) });
  }
  return [...classes.values()].map(({ counts, ...one }) => ({
    ...one,
    exposures: [...counts].sort(([a], [b]) => a - b),
    repaired: one.repaired.sort((a, b) => (a.component < b.component ? -1 : 1)),
  }));
}

type CountedClass = ClassAtSite & { counts: Map<number, number> };

function blank(className: string, group: ClassAtSite['group']): CountedClass {
  return { className, group, exposures: [], repaired: [], counts: new Map() };
}

/** So that two records of the same are the same to the byte. */
function sorted(events: Readonly<Record<string, number>>): Record<string, number> {
  return Object.fromEntries(Object.entries(events).sort(([a], [b]) => (a < b ? -1 : 1)));
}
