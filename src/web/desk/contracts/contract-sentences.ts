import { PAGE_FORMATS, PAGE_LANGUAGE, PAGE_LOCALE } from '../../parts/language.js';
import { longDay } from '../../parts/time-words.js';
import type { ReadClosedCalendar, ReadContract, ReadTicketClock } from '../../parts/wire.js';
import { dayBeside } from '../days/day-lanes.js';
import { money } from './money.js';
import { REVIEW_WORDS } from './review-words.js';
import { clockWordsIn } from '#app/words/clock-words-in.js';
import { CONTRACT_WORDS } from '../words/words.js';

/** How far trouble goes, and why a clock stands still, in the words that tell of clocks. */
export const { troubleClass: TROUBLE_WORDS, pausedFor: PAUSED_FOR } = clockWordsIn(PAGE_LANGUAGE);

/** The last day before this one. */
export function lastDay(until: string): string {
  return longDay(dayBeside(until, -1));
}

export function weekdayName(weekday: number): string {
  // 5 January 2026 is a Monday.
  return new Intl.DateTimeFormat(PAGE_LOCALE, { weekday: 'long', timeZone: 'UTC' }).format(
    Date.UTC(2026, 0, 4 + weekday),
  );
}

/** A contract as sentences, each a line. */
export function termsInWords(
  contract: ReadContract,
  calendars: readonly ReadClosedCalendar[],
): string[] {
  const words = CONTRACT_WORDS;
  const { from, until, kind, visitsPerYear, visitRhythm, callOutsPerYear } = contract;
  const { feeMinor, currency, pausesForParts, exclusions, noticeDays } = contract;
  return [
    words.period(longDay(from), lastDay(until)),
    words.kinds[kind],
    visitsPerYear === 0 ? words.noVisits : words.visitsEach(visitsPerYear),
    visitRhythm && words.rhythm(visitRhythm.everyMonths, visitRhythm.onDay),
    callOutsPerYear === null ? words.callOutsAll : words.callOuts(callOutsPerYear),
    words.fee(money(feeMinor, currency)),
    ...promisesInWords(contract),
    ...hoursInWords(contract, calendars),
    pausesForParts && words.pauses,
    exclusions !== null && words.exclusions(exclusions),
    noticeDays !== null && words.notice(noticeDays),
  ].filter((line) => typeof line === 'string');
}

function promisesInWords({ promises }: ReadContract): string[] {
  const { promise, minutes, nothingPromised } = CONTRACT_WORDS;
  if (promises.length === 0) return [nothingPromised];
  return promises.map(({ troubleClass, responseMinutes, restoreMinutes }) =>
    promise(
      TROUBLE_WORDS[troubleClass],
      minutes(responseMinutes),
      restoreMinutes === null ? '' : minutes(restoreMinutes),
    ),
  );
}

function hoursInWords(
  { coverage }: ReadContract,
  calendars: readonly ReadClosedCalendar[],
): (string | false)[] {
  const words = CONTRACT_WORDS;
  const { windows, zone, publicHolidays, closedDays, calendarIds } = coverage;
  const named = calendars.filter(({ id }) => calendarIds.includes(id)).map(({ name }) => name);
  return [
    REVIEW_WORDS.coveredHours(windows),
    zone !== null && words.zone(zone),
    publicHolidays !== null && words.holidays(countryOf(publicHolidays)),
    named.length > 0 && words.calendars(PAGE_FORMATS.and(named)),
    closedDays.length > 0 && words.closed(closedDays.length),
  ];
}

/** By its name, with the code of a part of it. */
function countryOf({ country, region }: { country: string; region: string | null }): string {
  const name = new Intl.DisplayNames(PAGE_LOCALE, { type: 'region' }).of(country) ?? country;
  return region === null ? name : `${name} (${region})`;
}

/** "kept: 1 h 20 min of 4 h". */
export function clockInWords({
  state,
  minutesTaken,
  promisedMinutes,
}: ReadTicketClock['promises'][number]): string {
  const { clock, minutes } = CONTRACT_WORDS;
  return clock[state](minutes(minutesTaken), minutes(promisedMinutes));
}
