import type { PassSite, PassTicketSummary } from '../parts/wire.js';

const DAY = new Intl.DateTimeFormat('en-GB', { dateStyle: 'full', timeZone: 'UTC' });

/** "2026-03-09" as "Monday 9 March 2026"; a day is the same everywhere. */
export function dayInWords(day: string): string {
  return DAY.format(new Date(`${day}T00:00:00Z`)).replace(',', '');
}

/** An instant as the clock on the site's wall shows it, wherever the page is read. */
export function instantInWords(instant: string, timeZone: string): string {
  const style = { dateStyle: 'medium', timeStyle: 'short', timeZone } as const;
  return new Intl.DateTimeFormat('en-GB', style).format(new Date(instant));
}

export function nextVisitInWords(next: PassSite['nextVisit']): string {
  if (next === null) {
    return 'No visit is set yet. As soon as the service firm has set one, its day stands here.';
  }
  const kind = next.kind === 'planned' ? 'a planned visit' : 'a call-out';
  return `Somebody is due on ${dayInWords(next.on)} (${kind}).`;
}

const STATES: Readonly<Record<PassTicketSummary['state'], string>> = {
  reported: 'The firm has it and decides what comes next.',
  'to-visit': 'Somebody will come.',
  'at-work': 'Somebody is working on it.',
  bridged: 'It works for now; somebody will come back to mend it for good.',
  mended: 'It is mended; it is still to be tried in every room.',
  closed: 'It is closed.',
  merged: 'It was joined to another ticket.',
};

export function stateInWords(state: PassTicketSummary['state']): string {
  return STATES[state];
}
