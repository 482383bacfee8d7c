import { PAGE_LOCALE } from './language.js';

/** How long ago, in at most two units: "< 1 min", "5 mins", "3 hrs 20 mins", "4 days". */
export function since(instant: string, now: Date, locale: string = PAGE_LOCALE): string {
  const minutes = Math.max(0, Math.floor((now.getTime() - Date.parse(instant)) / 60_000));
  const inUnits = (count: number, unit: 'minute' | 'hour' | 'day') => {
    const unitDisplay = unit === 'day' ? 'long' : 'short';
    return new Intl.NumberFormat(locale, { style: 'unit', unit, unitDisplay }).format(count);
  };
  if (minutes === 0) return `< ${inUnits(1, 'minute')}`;
  if (minutes < 60) return inUnits(minutes, 'minute');
  const hours = Math.floor(minutes / 60);
  if (hours >= 24) return inUnits(Math.floor(hours / 24), 'day');
  const whole = inUnits(hours, 'hour');
  return minutes % 60 === 0 ? whole : `${whole} ${inUnits(minutes % 60, 'minute')}`;
}

/** An instant by the reader's own clock. */
export function local(instant: string): string {
  const style = { dateStyle: 'medium', timeStyle: 'short' } as const;
  return new Date(instant).toLocaleString(PAGE_LOCALE, style);
}

/** An instant by the clock on the site's wall; with its year where that is not the present one there. */
export function atSite(instant: string, timeZone: string, now: Date = new Date()): string {
  const style = { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' } as const;
  const at = new Date(instant);
  const year = yearOf(at, timeZone) === yearOf(now, timeZone) ? undefined : 'numeric';
  return new Intl.DateTimeFormat(PAGE_LOCALE, { ...style, year, timeZone }).format(at);
}

/** "Mon 9 Mar", in another year than the present "Mon 9 Mar 2026"; a day is the same everywhere. */
export function shortDay(
  day: string,
  locale: string = PAGE_LOCALE,
  now: Date = new Date(),
): string {
  const year = day.slice(0, 4) === String(now.getFullYear()) ? undefined : 'numeric';
  return dayInWords(day, { year, locale });
}

/** "Mon 9 Mar 2026". */
export function longDay(day: string, locale: string = PAGE_LOCALE): string {
  return dayInWords(day, { year: 'numeric', locale });
}

function dayInWords(
  day: string,
  { year, locale }: { year: 'numeric' | undefined; locale: string },
): string {
  const style = { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' } as const;
  return new Intl.DateTimeFormat(locale, { ...style, year })
    .format(new Date(`${day}T00:00:00Z`))
    .replace(',', '');
}

function yearOf(instant: Date, timeZone: string): string {
  return new Intl.DateTimeFormat('en', { year: 'numeric', timeZone }).format(instant);
}
