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
  const world = new Holidays();
  const [state, part] = region?.split('/') ?? [];
  if (!Object.hasOwn(world.getCountries(), country)) {
    return { field: 'country', reason: 'is no country whose public holidays are known' };
  }
  const parts = [
    world.getStates(country),
    state === undefined ? {} : world.getRegions(country, state),
  ];
  const isKnown = [state, part].every(
    (one, depth) => one === undefined || Object.hasOwn(parts[depth] ?? {}, one),
  );
  return isKnown ? null : { field: 'region', reason: `is no part of ${country} that is known` };
}

/** What a thread has worked out; a year takes some twenty milliseconds. */
const known = new Map<string, ClosedTime[]>();
const MOST_KNOWN = 500;

/** Public holidays of whole days, of the years from the first to the last. */
export function publicHolidays(
  region: HolidayRegion,
  fromYear: number,
  toYear: number,
): ClosedTime[] {
  const key = JSON.stringify([region.country, region.region, fromYear, toYear]);
  const found = known.get(key) ?? workOut(region, fromYear, toYear);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, found);
  return found;
}

export interface DayOfRegion {
  region: HolidayRegion;
  on: string;
}

/** The name of the public holiday that each day is; null: none. */
export function holidaysOn(days: readonly DayOfRegion[]): (string | null)[] {
  return days.map(holidayOn);
}

function holidayOn({ region, on }: DayOfRegion): string | null {
  const year = Number(on.slice(0, 4));
  // One may begin in the year before.
  const holidays = publicHolidays(region, year - 1, year);
  return holidays.find(({ from, until }) => from <= on && on < until)?.name ?? null;
}

function workOut({ country, region }: HolidayRegion, fromYear: number, toYear: number) {
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
