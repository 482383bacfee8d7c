/** The day by the reader's own calendar, so many days later, written year-month-day. */
export function localDay(now: Date, daysLater = 0): string {
  // Noon: no change of the clocks makes it another day.
  const noon = new Date(now.getFullYear(), now.getMonth(), now.getDate() + daysLater, 12);
  return new Intl.DateTimeFormat('sv-SE').format(noon);
}

export function today(): string {
  return localDay(new Date());
}
