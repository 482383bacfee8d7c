import { closedByDay, type ClosedTime } from './closed-time.js';
import type { ContractTerms } from './contract-kinds.js';
import { contractYears, visitSlots } from './contract-year.js';
import { standOf, type StandingSlot, type UpkeepVisit, type VisitStanding } from './kept-visits.js';
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

/** A promised visit that nobody has planned yet. */
export interface OwedVisit {
  contractId: string;
  siteId: string;
  year: number;
  ordinal: number;
  standing: VisitStanding;
  ideal: string;
  /** Days on which it may be made, of those asked for, in order; none: it cannot be made then. */
  days: string[];
}

/** Of several contracts, and of a time: half-open. */
export interface OwedQuestion {
  contracts: (VisitsQuestion & { contractId: string })[];
  from: string;
  until: string;
}

const OWED: readonly VisitStanding[] = ['due', 'late', 'to-come'];

/** Every promised visit of a contract with how it stands. */
export function contractVisits(question: VisitsQuestion): SiteVisits[] {
  const { terms, sites } = question;
  const slots = visitSlots({ ...terms, rhythm: terms.visitRhythm }, allowedDays(question));
  return sites.map(({ siteId, today, visits }) => ({ siteId, ...standOf(slots, visits, today) }));
}

/** What of all contracts is to be made in the time: in its slot, and what is late until its year ends. */
export function owedVisits({ contracts, from, until }: OwedQuestion): OwedVisit[] {
  return contracts.flatMap((question) => {
    const isAllowed = allowedDays(question);
    const yearEnds = contractYears(question.terms).map((year) => year.until);
    const todays = new Map(question.sites.map(({ siteId, today }) => [siteId, today]));
    return contractVisits(question).flatMap(({ siteId, slots }) =>
      slots.flatMap((slot): OwedVisit[] => {
        const { standing, year, ordinal, ideal } = slot;
        const first = max(from, slot.from, todays.get(siteId) ?? from);
        const end = min(until, standing === 'late' ? (yearEnds[year - 1] ?? until) : slot.until);
        if (!OWED.includes(standing) || ideal === null || first >= end) return [];
        const days = daysOf(first, end).filter(isAllowed);
        return [{ contractId: question.contractId, siteId, year, ordinal, standing, ideal, days }];
      }),
    );
  });
}

function allowedDays({ terms, avoided }: VisitsQuestion): (day: string) => boolean {
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
  return (day) =>
    !Object.hasOwn(closed, day) && weekdays.has(new Date(`${day}T00:00:00Z`).getUTCDay() || 7);
}

const DAY_MS = 86_400_000;

function daysOf(from: string, until: string): string[] {
  const count = (Date.parse(until) - Date.parse(from)) / DAY_MS;
  return Array.from({ length: count }, (_, day) =>
    new Date(Date.parse(from) + day * DAY_MS).toISOString().slice(0, 10),
  );
}

function max(...days: string[]): string {
  return days.reduce((latest, day) => (day > latest ? day : latest));
}

function min(...days: string[]): string {
  return days.reduce((earliest, day) => (day < earliest ? day : earliest));
}
