/** The day by the reader's own calendar, written year-month-day. */
export function today(): string {
  return new Intl.DateTimeFormat('sv-SE').format(new Date());
}
