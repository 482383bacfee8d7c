import type { ClosedTime } from './closed-time.js';
import type { TroubleClass } from './class-of-trouble.js';
import type { CoverageWindow } from './coverage.js';
import type { HolidayRegion } from './public-holidays.js';

/** Parts and labour, or labour alone. */
export const CONTRACT_KINDS = ['comprehensive', 'labour-only'] as const;

export type ContractKind = (typeof CONTRACT_KINDS)[number];

/** Somebody is on site; it works again. */
export const PROMISE_KINDS = ['response', 'restore'] as const;

export type PromiseKind = (typeof PROMISE_KINDS)[number];

/** When what is promised runs, as a contract says it. */
export interface Coverage {
  /** Null: each site's own. */
  zone: string | null;
  windows: CoverageWindow[];
  publicHolidays: HolidayRegion | null;
  closedDays: ClosedTime[];
  calendarIds: string[];
}

/** When planned visits may be made. */
export interface VisitHours {
  /** None: in the coverage hours. */
  windows: CoverageWindow[];
  avoidCalendarIds: string[];
}

/** Minutes of covered time for one class of trouble. */
export interface Promised {
  troubleClass: TroubleClass;
  responseMinutes: number;
  restoreMinutes: number | null;
}

/** What a contract says, as far as it can be checked by itself. */
export interface ContractTerms {
  from: string;
  until: string;
  visitsPerYear: number;
  visitRhythm: { everyMonths: number; onDay: number } | null;
  visitHours: VisitHours;
  promises: Promised[];
  coverage: Coverage;
}
