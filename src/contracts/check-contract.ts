import type { FieldError } from '../shared/domain-error.js';
import { refuseClosedTime } from './closed-time.js';
import type { ContractTerms, Promised } from './contract-kinds.js';
import { minuteOfDay } from '../shared/time-of-day.js';
import type { CoverageWindow } from './coverage.js';

const LONGEST_YEARS = 10;
const DAY_MS = 86_400_000;

/** All that is wrong with a contract by itself, by field. */
export function checkContract(terms: ContractTerms): FieldError[] {
  const { coverage, visitHours } = terms;
  return [
    ...checkTime(terms),
    ...checkEverOpen(terms),
    ...checkWindows('/coverage/windows', coverage.windows),
    ...checkWindows('/visitHours/windows', visitHours.windows),
    ...coverage.closedDays.flatMap((time, index) => {
      const reason = refuseClosedTime(time);
      return reason === null ? [] : [{ field: `/coverage/closedDays/${index}/until`, reason }];
    }),
    ...checkPromises(terms.promises),
    ...checkRhythm(terms),
  ];
}

function checkTime({ from, until }: ContractTerms): FieldError[] {
  const field = '/until';
  if (until <= from) return [{ field, reason: `ends before it begins, on ${from}` }];
  const years = Number(until.slice(0, 4)) - Number(from.slice(0, 4));
  return years > LONGEST_YEARS
    ? [{ field, reason: `is more than ${LONGEST_YEARS} years after it begins` }]
    : [];
}

/** Public holidays and calendars are not looked at here: they change. */
function checkEverOpen({ coverage, from, until }: ContractTerms): FieldError[] {
  const { windows, closedDays } = coverage;
  if (windows.length === 0) {
    return [{ field: '/coverage/windows', reason: 'never open: what is promised would never run' }];
  }
  const open = new Set(windows.map(({ weekday }) => weekday));
  const last = Math.min(Date.parse(until), Date.parse(from) + LONGEST_YEARS * 366 * DAY_MS);
  for (let at = Date.parse(from); at < last; at += DAY_MS) {
    const day = new Date(at).toISOString().slice(0, 10);
    const isClosed = closedDays.some((time) => time.from <= day && day < time.until);
    if (open.has(new Date(at).getUTCDay() || 7) && !isClosed) return [];
  }
  return until <= from
    ? []
    : [{ field: '/coverage/windows', reason: 'never open: no day of the contract has hours' }];
}

function checkWindows(field: string, windows: readonly CoverageWindow[]): FieldError[] {
  return windows.flatMap((window, index) => {
    if (minute(window.until) <= minute(window.from)) {
      const reason = 'is not after `from`; past midnight is a window of the next day';
      return [{ field: `${field}/${index}/until`, reason }];
    }
    const other = windows.findIndex(
      (one, before) =>
        before < index &&
        one.weekday === window.weekday &&
        minute(one.from) < minute(window.until) &&
        minute(window.from) < minute(one.until),
    );
    return other < 0
      ? []
      : [{ field: `${field}/${index}`, reason: `overlaps window ${other} of the same day` }];
  });
}

function checkPromises(promises: readonly Promised[]): FieldError[] {
  return promises.flatMap(({ troubleClass, responseMinutes, restoreMinutes }, index) => {
    const field = `/promises/${index}`;
    const errors: FieldError[] = [];
    if (promises.findIndex((one) => one.troubleClass === troubleClass) < index) {
      errors.push({ field: `${field}/troubleClass`, reason: `is promised twice: ${troubleClass}` });
    }
    if (restoreMinutes !== null && responseMinutes > restoreMinutes) {
      const reason = `is longer than restoring, which has ${restoreMinutes} minutes`;
      errors.push({ field: `${field}/responseMinutes`, reason });
    }
    return errors;
  });
}

function checkRhythm({ visitRhythm, visitsPerYear }: ContractTerms): FieldError[] {
  if (visitRhythm === null) return [];
  const visits = 12 / visitRhythm.everyMonths;
  if (visits === visitsPerYear) return [];
  const reason = `must be ${visits} with a visit each ${visitRhythm.everyMonths} months`;
  return [{ field: '/visitsPerYear', reason }];
}

function minute(time: string): number {
  return minuteOfDay(time) ?? 0;
}
