/** How long ago, in at most two units: "5 min", "3 h 20 min", "4 days". */
export function since(instant: string, now: Date): string {
  const minutes = Math.max(0, Math.floor((now.getTime() - Date.parse(instant)) / 60_000));
  if (minutes < 60) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  if (hours < 24) return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
  const days = Math.floor(hours / 24);
  return days === 1 ? '1 day' : `${days} days`;
}

/** An instant by the reader's own clock. */
export function local(instant: string): string {
  const style = { dateStyle: 'medium', timeStyle: 'short' } as const;
  return new Date(instant).toLocaleString('en-GB', style);
}

/** An instant by the clock on the site's wall. */
export function atSite(instant: string, timeZone: string): string {
  const style = { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' } as const;
  return new Intl.DateTimeFormat('en-GB', { ...style, timeZone }).format(new Date(instant));
}

/** "Mon 9 Mar"; a day is the same everywhere. */
export function shortDay(day: string): string {
  const style = { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' } as const;
  return new Intl.DateTimeFormat('en-GB', style)
    .format(new Date(`${day}T00:00:00Z`))
    .replace(',', '');
}
