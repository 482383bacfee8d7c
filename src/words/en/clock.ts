import type { ClockLine } from '../../promises/promise-clock.js';
import type { ClockWords, ReckonedPromise } from '../clock-words.js';

const PAUSED = {
  'no-access': 'no access',
  'waiting-for-client': 'waiting for the client',
  'part-on-order': 'a part is on order',
  closed: 'the ticket was closed',
};

const PROMISED = { response: 'somebody on site', restore: 'working again' };

function dayOf(instant: number, timeZone: string): string {
  return new Intl.DateTimeFormat('en-GB', {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    timeZone,
  })
    .format(instant)
    .replace(',', '');
}

function timeOf(instant: number, timeZone: string): string {
  return new Intl.DateTimeFormat('en-GB', { timeStyle: 'short', timeZone }).format(instant);
}

function dayAndTime(instant: number, timeZone: string): string {
  return `${dayOf(instant, timeZone)}, ${timeOf(instant, timeZone)}`;
}

/** "3 h 20 min"; seconds only where they are not whole minutes. */
function duration(ms: number): string {
  const seconds = Math.round(ms / 1000);
  const parts: [number, string][] = [
    [Math.floor(seconds / 3600), 'h'],
    [Math.floor(seconds / 60) % 60, 'min'],
    [seconds % 60, 's'],
  ];
  const told = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count} ${unit}`);
  return told.length === 0 ? '0 min' : told.join(' ');
}

function closed({ from, to, why, name }: Extract<ClockLine, { kind: 'closed' }>): string {
  const [first, last] = [from, to].map((day) => dayOf(Date.parse(day), 'UTC'));
  const days = from === to ? first : `${first} to ${last}`;
  return why === 'no-hours' ? `${days}: no hours` : `${days}: closed (${name ?? why})`;
}

function line(fact: ClockLine, zone: string): string {
  switch (fact.kind) {
    case 'counted': {
      const hours = `${timeOf(fact.from, zone)} to ${timeOf(fact.until, zone)}`;
      const left = fact.leftMs === 0 ? 'used up' : `${duration(fact.leftMs)} left`;
      return `${dayOf(fact.from, zone)}, ${hours}: ${duration(fact.ms)}, ${left}`;
    }
    case 'closed':
      return closed(fact);
    case 'paused': {
      const until = fact.until === null ? 'on' : `to ${dayAndTime(fact.until, zone)}`;
      const evidence = fact.evidence === '' ? '' : ` (${fact.evidence})`;
      return `paused from ${dayAndTime(fact.from, zone)} ${until}: ${PAUSED[fact.reason]}${evidence}`;
    }
    case 'further':
      return `… ${fact.lines} more lines: ${duration(fact.ms)}`;
  }
}

function reckoning({ zone, reportedAt, clock }: ReckonedPromise): string {
  const begins = `${PROMISED[clock.promise]} within ${duration(clock.promisedMinutes * 60_000)}: `;
  const steps = clock.lines.map((fact) => {
    if (fact.kind !== 'counted' || fact.leftMs > 0) return line(fact, zone);
    const from = fact.from === reportedAt ? '' : `${dayAndTime(fact.from, zone)} + `;
    return `${from}${duration(fact.ms)} = ${timeOf(fact.until, zone)}`;
  });
  const ends =
    clock.dueAt !== null
      ? ''
      : clock.state === 'paused'
        ? '; it stands still'
        : '; the hours do not open for long enough';
  return `${begins}reported ${dayAndTime(reportedAt, zone)}; ${steps.join('; ')}${ends}`;
}

export const EN_CLOCK: ClockWords = {
  language: 'en',
  troubleClass: {
    'whole-site': 'the whole site is silent',
    'whole-trunk': 'a whole trunk is silent',
    'several-rooms': 'several rooms are silent',
    'one-room': 'one room is silent',
  },
  line,
  reckoning,
};
