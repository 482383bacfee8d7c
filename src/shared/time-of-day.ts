/** A time by the wall clock, "08:30"; the end of the day is "24:00". */
export const TIME_OF_DAY = /^(([01]\d|2[0-3]):[0-5]\d|24:00)$/;

/** Minutes after midnight of "08:30"; "24:00" is 1440. Undefined for what is no time of day. */
export function minuteOfDay(time: string): number | undefined {
  if (!TIME_OF_DAY.test(time)) return undefined;
  return Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
}
