import Holidays from 'date-holidays';
import type { ClosedTime } from './closed-time.js';

/** Whose public holidays are kept. */
export interface HolidayRegion {
  /** ISO 3166-1: "DE". */
  country: string;
  /** A part of it, "BY", or a part of that, "BY/A"; null: those of the whole country. */
  region: string | null;
}

/** What is wrong with a region. */
export interface RefusedRegion {
  field: 'country' | 'region';
  reason: string;
}

const DAY_MS = 86_400_000;

/** What is wrong with a region; null: nothing. */
export function refuseRegion({ country, region }: HolidayRegion): RefusedRegion | null {
  const known = new Holidays();
  const [state, part] = region?.split('/') ?? [];
  if (!Object.hasOwn(known.getCountries(), country)) {
    return { field: 'country', reason: 'is no country whose public holidays are known' };
  }
  const parts = [
    known.getStates(country),
    state === undefined ? {} : known.getRegions(country, state),
  ];
  const isKnown = [state, part].every(
    (one, depth) => one === undefined || Object.hasOwn(parts[depth] ?? {}, one),
  );
  return isKnown ? null : { field: 'region', reason: `is no part of ${country} that is known` };
}

/** Public holidays of whole days, of the years from the first to the last. */
export function publicHolidays(
  { country, region }: HolidayRegion,
  fromYear: number,
  toYear: number,
): ClosedTime[] {
  const [state, part] = region?.split('/') ?? [];
  const holidays = new Holidays();
  if (state === undefined) holidays.init(country);
  else if (part === undefined) holidays.init(country, state);
  else holidays.init(country, state, part);
  const years = Array.from({ length: toYear - fromYear + 1 }, (_, index) => fromYear + index);
  return years.flatMap((year) =>
    (holidays.getHolidays(year, 'en') ?? [])
      .filter(({ type, date }) => type === 'public' && date.slice(11, 19) === '00:00:00')
      .map(({ date, start, end, name }) => {
        const from = date.slice(0, 10);
        const days = Math.max(1, Math.round((end.getTime() - start.getTime()) / DAY_MS));
        const until = new Date(Date.parse(from) + days * DAY_MS).toISOString().slice(0, 10);
        return { from, until, name };
      }),
  );
}
