import { type Component, MAX_EXPOSURE_DAYS } from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';

const MS_PER_DAY = 86_400_000;

/** When nothing is known of the past, as if put in a year ago; a day is the least there can be. */
const DAYS_IF_UNKNOWN = 365;
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
  return (of) => daysBetween(ownDay(of) ?? site, now);
}

/** The longest exposure of a site, for what nothing else is known of, and what it counts from. */
export function siteExposure(asBuilt: AsBuilt, now: Date): { days: number; reason: string } {
  const day = oldest([asBuilt.headEnd.installedOn, ...asBuilt.trunks.flatMap(unitDays)]);
  const reason =
    day === null
      ? 'a year ago, because nothing is known of its past'
      : 'its oldest unit was installed';
  return { days: Math.min(MAX_EXPOSURE_DAYS, daysBetween(day, now)), reason };
}

/** Days from a day or an instant, at least one; null: a year. */
export function daysBetween(from: string | Date | null, to: Date): number {
  if (from === null) return DAYS_IF_UNKNOWN;
  return Math.max(LEAST_DAYS, (to.getTime() - new Date(from).getTime()) / MS_PER_DAY);
}

function unitDays({ nodes }: AsBuilt['trunks'][number]): (string | null)[] {
  return nodes.map(({ unitInstalledOn }) => unitInstalledOn);
}

function oldest(days: (string | null)[]): string | null {
  return days.filter((day) => day !== null).sort()[0] ?? null;
}
