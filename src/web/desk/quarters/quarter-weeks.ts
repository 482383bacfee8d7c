import type { OwedQuarterVisit, PlacedQuarterVisit } from '../../parts/wire.js';
import { dayBeside } from '../days/day-lanes.js';

export const WEEKS = 13;

/** A visit as it is drawn: where it lies, and how far that is from its best day. */
export interface DrawnVisit {
  visit: OwedQuarterVisit | PlacedQuarterVisit;
  on: string;
  /** Days after its best day. */
  away: number;
}

/** Visits to which one way does. */
export interface SharedWay {
  technicianId: string | undefined;
  visits: readonly DrawnVisit[];
}

/** A day on which somebody is out. */
export interface Outing {
  on: string;
  ways: readonly SharedWay[];
}

export interface Week {
  /** Its first day. */
  from: string;
  /** In the order of the strands. */
  outings: readonly (readonly Outing[])[];
}

export interface Weeks {
  /** Technicians or areas, by their ids or numbers, in the order in which they come up. */
  strands: readonly string[];
  weeks: readonly Week[];
}

export type StrandKind = 'technician' | 'area';

/** Thirteen weeks of strands, each with its outings by day; what nobody planned lies on its best day, on one strand. */
export function laysWeeks(
  from: string,
  visits: readonly (OwedQuarterVisit | PlacedQuarterVisit)[],
  by: StrandKind,
): Weeks {
  const drawn = visits.map((visit): DrawnVisit => {
    // The best day of what is late may have gone by.
    const on = 'on' in visit ? visit.on : visit.ideal < from ? from : visit.ideal;
    return { visit, on, away: daysApart(visit.ideal, on) };
  });
  const strandOf = ({ visit }: DrawnVisit): string => {
    if (!('on' in visit)) return '';
    return by === 'area' ? String(visit.area) : visit.technicianId;
  };
  const strands = [...new Set(drawn.map(strandOf))];
  return {
    strands,
    weeks: Array.from({ length: WEEKS }, (_, week) => {
      const first = dayBeside(from, 7 * week);
      const next = dayBeside(first, 7);
      const own = drawn.filter(({ on }) => on >= first && on < next);
      return {
        from: first,
        outings: strands.map((strand) => outingsOf(own.filter((one) => strandOf(one) === strand))),
      };
    }),
  };
}

function outingsOf(visits: readonly DrawnVisit[]): Outing[] {
  const days = [...new Set(visits.map(({ on }) => on))].sort();
  return days.map((on) => {
    const ways = new Map<string, { technicianId: string | undefined; visits: DrawnVisit[] }>();
    for (const one of visits.filter((other) => other.on === on)) {
      const { visit } = one;
      const technicianId = 'on' in visit ? visit.technicianId : undefined;
      const key = 'on' in visit ? `${visit.technicianId} ${visit.area}` : '';
      const way = ways.get(key) ?? { technicianId, visits: [] };
      way.visits.push(one);
      ways.set(key, way);
    }
    return { on, ways: [...ways.values()] };
  });
}

export function daysApart(from: string, until: string): number {
  return (Date.parse(until) - Date.parse(from)) / 86_400_000;
}

/** The Monday on or after a day. */
export function mondayFrom(day: string): string {
  const weekday = new Date(`${day}T00:00:00Z`).getUTCDay() || 7;
  return dayBeside(day, (8 - weekday) % 7);
}
