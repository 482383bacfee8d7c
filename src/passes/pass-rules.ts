/** 128 random bits. */
export const PASS_SECRET_BYTES = 16;

/** Days for which work that is done can be signed for. */
export const SIGN_WITHIN_DAYS = 30;

/** The day that the site's calendar has at an instant, as an ISO date. */
export function dayAt(instant: Date, zone: string): string {
  // The Canadian way to write a date is the ISO one.
  return new Intl.DateTimeFormat('en-CA', { timeZone: zone, dateStyle: 'short' }).format(instant);
}
