/** The order in which a sheet writes a day's three numbers; the year is told by itself. */
export type DayOrder = 'day-month' | 'month-day';

type ReadDay = { day: string } | { reason: string };

const NO_DAY = 'is not a date written as year-month-day, such as 2024-05-03';

/** Two-digit years up to this one are of this century: a unit was put in, not planned. */
const LAST_SHORT_YEAR = 69;

/**
 * Reads days as one sheet writes them. `locale`, a language tag, says the order and the names of months; without it
 * the order is what its days themselves show ("25/3/2024" can be one thing only), and names of months are English.
 */
export function dayReader(cells: readonly string[], locale?: string): (cell: string) => ReadDay {
  const order = locale === undefined ? orderShownBy(cells) : orderOf(locale);
  const months = monthNames(locale ?? 'en');
  return (cell) => {
    const text = cell.trim().replace(/[T ]0{1,2}:00(:00(\.0+)?)?Z?$/, '');
    if (/^\d{4}-\d\d-\d\d$/.test(text)) return { day: text };
    const numbers = /^(\d{1,2})([./-])\s?(\d{1,2})\2\s?(\d{4}|\d\d)$/.exec(text);
    if (numbers !== null) return byNumbers(numbers, order);
    const yearFirst = /^(\d{4})([./])\s?(\d{1,2})\2\s?(\d{1,2})\.?$/.exec(text);
    if (yearFirst !== null) return toDay(yearFirst[1], yearFirst[3], yearFirst[4]);
    return byMonthName(text, months);
  };
}

function byNumbers([, one, mark, two, year]: string[], order: DayOrder | undefined): ReadDay {
  const known = order ?? (mark === '.' || Number(one) > 12 ? 'day-month' : undefined);
  if (known === 'day-month') return toDay(year, two, one);
  if (known === 'month-day' || Number(two) > 12) return toDay(year, one, two);
  if (one === two) return toDay(year, one, two);
  return {
    reason: 'could be two days; write it as year-month-day, or name the locale of the sheet',
  };
}

/** "3 May 2024", "3-May-24", "3. Mai 2024", "May 3, 2024". */
function byMonthName(text: string, months: ReadonlyMap<string, number>): ReadDay {
  const parts = text.split(/[\s.,/-]+/).filter((part) => part !== '' && part !== 'de');
  const at = parts.findIndex((part) => months.has(plain(part)));
  const month = months.get(plain(parts[at] ?? ''));
  const [day, year] = parts.filter((_, index) => index !== at);
  if (parts.length !== 3 || month === undefined || !/^\d{1,2}$/.test(day ?? ''))
    return { reason: NO_DAY };
  return toDay(year, String(month), day);
}

function toDay(year = '', month = '', day = ''): ReadDay {
  if (!/^(\d{4}|\d\d)$/.test(year)) return { reason: NO_DAY };
  const short = Number(year) > LAST_SHORT_YEAR ? '19' : '20';
  const full = year.length === 2 ? short + year : year;
  const text = `${full}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  const instant = new Date(`${text}T00:00:00Z`);
  // A 31st of June is the 1st of July to the clock.
  const exists = !Number.isNaN(instant.getTime()) && instant.toISOString().startsWith(text);
  return exists ? { day: text } : { reason: 'is no day of the calendar as this sheet writes them' };
}

function orderShownBy(cells: readonly string[]): DayOrder | undefined {
  const pairs = cells.flatMap((cell) => {
    const match = /^(\d{1,2})[/-](\d{1,2})[/-]\d{2,4}$/.exec(cell.trim());
    return match === null ? [] : [[Number(match[1]), Number(match[2])] as const];
  });
  const dayFirst = pairs.some(([one]) => one > 12);
  const monthFirst = pairs.some(([, two]) => two > 12);
  if (dayFirst === monthFirst) return undefined;
  return dayFirst ? 'day-month' : 'month-day';
}

function orderOf(locale: string): DayOrder {
  const parts = new Intl.DateTimeFormat(locale, { dateStyle: 'short' }).formatToParts(0);
  const types = parts.map(({ type }) => type);
  return types.indexOf('day') < types.indexOf('month') ? 'day-month' : 'month-day';
}

/** By each way in which a date of that language has them. */
function monthNames(locale: string): ReadonlyMap<string, number> {
  const styles = [
    { month: 'long' },
    { month: 'short' },
    { month: 'long', day: 'numeric' },
    { month: 'short', day: 'numeric' },
  ] as const;
  const names = new Map<string, number>();
  for (const style of styles) {
    const format = new Intl.DateTimeFormat(locale, { ...style, timeZone: 'UTC' });
    for (let month = 0; month < 12; month++) {
      const part = format
        .formatToParts(Date.UTC(2024, month, 3))
        .find(({ type }) => type === 'month');
      if (part !== undefined) names.set(plain(part.value), month + 1);
    }
  }
  return names;
}

function plain(word: string): string {
  return word.toLowerCase().replace(/\.$/, '');
}
