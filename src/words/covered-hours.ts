/** Hours of one day of the week, by the wall clock; "24:00" is the end of the day. */
export interface WindowOfWeek {
  /** 1 is Monday. */
  weekday: number;
  from: string;
  until: string;
}

/** How a language says when the hours of a contract count. */
export interface CoveredHoursTerms {
  /** For names of days, BCP 47. */
  locale: string;
  and: (items: readonly string[]) => string;
  roundTheClock: string;
  on: (hours: string) => string;
  onDay: (day: string, from: string, until: string) => string;
  onDays: (first: string, last: string, from: string, until: string) => string;
}

interface Run extends Pick<WindowOfWeek, 'from' | 'until'> {
  first: number;
  last: number;
}

/** When the hours of a contract count, as a sentence: days after each other with the same hours are told together. */
export function coveredHoursIn(terms: CoveredHoursTerms) {
  const days = new Intl.DateTimeFormat(terms.locale, { weekday: 'long', timeZone: 'UTC' });
  // 5 January 2026 is a Monday.
  const dayName = (weekday: number) => days.format(Date.UTC(2026, 0, 4 + weekday));
  return (windows: readonly WindowOfWeek[]): string => {
    if (isRoundTheClock(windows)) return terms.roundTheClock;
    const told = runsOf(windows).map(({ first, last, from, until }) =>
      first === last
        ? terms.onDay(dayName(first), from, until)
        : terms.onDays(dayName(first), dayName(last), from, until),
    );
    return terms.on(terms.and(told));
  };
}

/** Every minute of all seven days, in one window each or in several that meet. */
function isRoundTheClock(windows: readonly WindowOfWeek[]): boolean {
  return [1, 2, 3, 4, 5, 6, 7].every((weekday) => {
    const ofDay = windows
      .filter((one) => one.weekday === weekday)
      .sort((a, b) => a.from.localeCompare(b.from));
    const end = ofDay.reduce((met, { from, until }) => (from === met ? until : met), '00:00');
    return end === '24:00';
  });
}

function runsOf(windows: readonly WindowOfWeek[]): Run[] {
  const runs: Run[] = [];
  const inOrder = [...windows].sort(
    (a, b) => a.weekday - b.weekday || a.from.localeCompare(b.from),
  );
  for (const { weekday, from, until } of inOrder) {
    const run = runs.find(
      (one) => one.last === weekday - 1 && one.from === from && one.until === until,
    );
    if (run !== undefined) run.last = weekday;
    else runs.push({ first: weekday, last: weekday, from, until });
  }
  return runs;
}
