import type { Task } from '../compute/compute.service.js';
import type { OwedQuestion, OwedVisit, SiteVisits, VisitsQuestion } from './contract-visits.js';
import type { DayOfRegion, HolidayRegion, RefusedRegion } from './public-holidays.js';
import type { CalendarText, ReadCalendar } from './read-calendar.js';

const errors = {};

/** What is wrong with a country or a part of it; null: nothing. */
export const REFUSE_REGION: Task<HolidayRegion, RefusedRegion | null> = {
  file: new URL('./refuse-region.worker.js', import.meta.url),
  errors,
};

/** The public holiday of a region that each day is; null: none. */
export const HOLIDAYS_ON: Task<DayOfRegion[], (string | null)[]> = {
  file: new URL('./holidays-on.worker.js', import.meta.url),
  errors,
};

/** The closed times that an iCalendar text names. */
export const READ_CALENDAR: Task<CalendarText, ReadCalendar> = {
  file: new URL('./read-calendar.worker.js', import.meta.url),
  errors,
};

/** Every promised visit of a contract with how it stands. */
export const CONTRACT_VISITS: Task<VisitsQuestion, SiteVisits[]> = {
  file: new URL('./contract-visits.worker.js', import.meta.url),
  errors,
};

/** Promised visits that nobody planned yet. */
export const OWED_VISITS: Task<OwedQuestion, OwedVisit[]> = {
  file: new URL('./owed-visits.worker.js', import.meta.url),
  errors,
};
