import type { Component } from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';

const MS_PER_DAY = 86_400_000;

/**
 * The longest that a fault is thought to go unnoticed where a system is in daily use: what was put in earlier and never
 * proven counts as put in then, and so does what nothing is known of. Without it every function that nobody asked about
 * would look broken on an old site without walk tests. An invented starting value.
 */
const MOST_DAYS_UNNOTICED = 180;
/** Nothing fails in no time. */
const LEAST_DAYS = 1;

/**
 * Days since a component was put in, by the as-built record: a station by its own unit, the head-end by its own, the
 * cabling of a trunk by the trunk's oldest unit, because units are replaced and cables stay.
 */
export function installedDaysAgo(asBuilt: AsBuilt, now: Date): (component: Component) => number {
  const site = oldest([asBuilt.headEnd.installedOn, ...asBuilt.trunks.flatMap(unitDays)]);
  const trunks = new Map(asBuilt.trunks.map((trunk) => [trunk.trunk, oldest(unitDays(trunk))]));
  const units = new Map(
    asBuilt.trunks.flatMap(({ trunk, nodes }) =>
      nodes.map(({ node, unitInstalledOn }) => [JSON.stringify([trunk, node]), unitInstalledOn]),
    ),
  );
  const ownDay = (of: Component) => {
    if (of.component === 'head-end') return asBuilt.headEnd.installedOn;
    const cabling = trunks.get(of.trunk) ?? null;
    if (of.component !== 'station') return cabling;
    return units.get(JSON.stringify([of.trunk, of.node])) ?? cabling;
  };
  return (of) => unnoticedSince(ownDay(of) ?? site, now);
}

/** The longest exposure of a site, for what nothing else is known of, and what it counts from. */
export function siteExposure(asBuilt: AsBuilt, now: Date): { days: number; reason: string } {
  const day = oldest([asBuilt.headEnd.installedOn, ...asBuilt.trunks.flatMap(unitDays)]);
  const days = unnoticedSince(day, now);
  const reason =
    days === MOST_DAYS_UNNOTICED
      ? `as long as a fault may go unnoticed, ${days} days`
      : 'its oldest unit was installed';
  return { days, reason };
}

function unnoticedSince(day: string | null, now: Date): number {
  return day === null ? MOST_DAYS_UNNOTICED : Math.min(MOST_DAYS_UNNOTICED, daysBetween(day, now));
}

/** Days from a day or an instant, at least one. */
export function daysBetween(from: string | Date, to: Date): number {
  return Math.max(LEAST_DAYS, (to.getTime() - new Date(from).getTime()) / MS_PER_DAY);
}

function unitDays({ nodes }: AsBuilt['trunks'][number]): (string | null)[] {
  return nodes.map(({ unitInstalledOn }) => unitInstalledOn);
}

function oldest(days: (string | null)[]): string | null {
  return days.filter((day) => day !== null).sort()[0] ?? null;
}
