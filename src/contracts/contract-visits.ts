import { closedByDay, type ClosedTime } from './closed-time.js';
import type { ContractTerms } from './contract-kinds.js';
import { visitSlots } from './contract-year.js';
import { standOf, type StandingSlot, type UpkeepVisit } from './kept-visits.js';
import { publicHolidays } from './public-holidays.js';

/** A contract with what became of its visits, site by site. */
export interface VisitsQuestion {
  terms: Pick<
    ContractTerms,
    'from' | 'until' | 'visitsPerYear' | 'visitRhythm' | 'visitHours' | 'coverage'
  >;
  /** Those that visits avoid. */
  avoided: ClosedTime[];
  sites: { siteId: string; today: string; visits: UpkeepVisit[] }[];
}

export interface SiteVisits {
  siteId: string;
  slots: StandingSlot[];
  /** Visits beyond what was promised. */
  further: string[];
}

/** Every promised visit of a contract with how it stands. */
export function contractVisits({ terms, avoided, sites }: VisitsQuestion): SiteVisits[] {
  const { coverage, visitHours } = terms;
  const region = coverage.publicHolidays;
  const [first, last] = [terms.from, terms.until].map((day) => Number(day.slice(0, 4)));
  const closed = closedByDay([
    ...coverage.closedDays.map((time) => ({ ...time, why: 'closed-day' as const })),
    ...(region === null ? [] : publicHolidays(region, first ?? 0, last ?? 0)).map((time) => {
      return { ...time, why: 'public-holiday' as const };
    }),
    ...avoided.map((time) => ({ ...time, why: 'calendar' as const })),
  ]);
  const windows = visitHours.windows.length > 0 ? visitHours.windows : coverage.windows;
  const weekdays = new Set(windows.map(({ weekday }) => weekday));
  const isAllowed = (day: string) =>
    !Object.hasOwn(closed, day) && weekdays.has(new Date(`${day}T00:00:00Z`).getUTCDay() || 7);
  const promised = { ...terms, rhythm: terms.visitRhythm };
  const slots = visitSlots(promised, isAllowed);
  return sites.map(({ siteId, today, visits }) => ({ siteId, ...standOf(slots, visits, today) }));
}
