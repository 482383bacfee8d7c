/** The instant at which a clock on the wall there shows that: "2026-03-03T14:05". Of an hour that comes twice, one of them. */
export function instantAt(wall: string, timeZone: string): string {
  const meant = Date.parse(`${wall}Z`);
  const offsetAt = (instant: number) => shownAt(instant, timeZone) - instant;
  return new Date(meant - offsetAt(meant - offsetAt(meant))).toISOString();
}

function shownAt(instant: number, timeZone: string): number {
  const style = { dateStyle: 'short', timeStyle: 'medium', timeZone } as const;
  const shown = new Intl.DateTimeFormat('sv-SE', style).format(instant);
  return Date.parse(`${shown.replace(' ', 'T')}Z`);
}
