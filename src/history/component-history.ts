import type { Component, Proof, SiteHistory } from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';
import { daysBetween, installedDaysAgo } from './exposure.js';
import type { RatesOf } from './learned-rates.js';
import { componentsNear, type NearbyWork } from './touched-nearby.js';
import { componentKey, componentsOf, type Found } from './work-done.js';

/**
 * What the record says of a site's components just before `now`. A joint, a cable or an output that was found faulty and
 * mended for good is as new from then on; whatever was found anywhere, hands were on it; and
 * so they may have been where others worked.
 */
export function siteHistory(
  given: {
    asBuilt: AsBuilt;
    proofs: readonly Proof[];
    found: readonly Found[];
    nearby: readonly NearbyWork[];
  },
  ratesOf: RatesOf,
  now: Date,
): SiteHistory {
  const { asBuilt, proofs, found, nearby } = given;
  const installed = installedDaysAgo(asBuilt, now);
  const renewed = new Map<string, number>();
  const touched = new Map<string, number>();
  for (const { place, component, foundAt, mending, mendedAt } of found) {
    const last = mendedAt !== null && mendedAt < now ? mendedAt : foundAt;
    if (last >= now) continue;
    for (const one of componentsOf(place, component)) keepLeast(touched, one, last, now);
    const isKnown = component !== null || place.kind === 'port';
    if (mending !== 'lasting' || last !== mendedAt || !isKnown) continue;
    for (const one of componentsOf(place, component))
      if (one.component !== 'station' && one.component !== 'head-end')
        keepLeast(renewed, one, last, now);
  }
  touchNearby(touched, nearby, asBuilt, now);
  return {
    proofs,
    newDaysAgo: (of) => Math.min(installed(of), renewed.get(componentKey(of)) ?? Infinity),
    touchedDaysAgo: (of) => touched.get(componentKey(of)),
    ratesPerYear: ratesOf,
  };
}

function touchNearby(
  touched: Map<string, number>,
  nearby: readonly NearbyWork[],
  asBuilt: AsBuilt,
  now: Date,
): void {
  for (const { rooms, on } of nearby) {
    const day = new Date(on);
    if (day >= now) continue;
    for (const room of rooms)
      for (const one of componentsNear(asBuilt, room)) keepLeast(touched, one, day, now);
  }
}

function keepLeast(days: Map<string, number>, component: Component, at: Date, now: Date): void {
  const key = componentKey(component);
  days.set(key, Math.min(days.get(key) ?? Infinity, daysBetween(at, now)));
}
