import type { ClockLine } from '../promises/promise-clock.js';
import type { ClockWords, ReckonedPromise } from './clock-words.js';

type Closed = Extract<ClockLine, { kind: 'closed' }>;

/** What a language says where clocks are told; what is handed in is told already. */
export interface ClockTerms {
  language: ClockWords['language'];
  /** For days and times, BCP 47. */
  locale: string;
  troubleClass: ClockWords['troubleClass'];
  units: readonly [hours: string, minutes: string, seconds: string];
  usedUp: string;
  left: (duration: string) => string;
  /** From a time, or a day, to another. */
  range: (from: string, to: string) => string;
  noHours: (days: string) => string;
  closed: (days: string, why: string) => string;
  /** Of what is closed without a name. */
  closedBy: Readonly<Record<Exclude<Closed['why'], 'no-hours'>, string>>;
  pausedFor: ClockWords['pausedFor'];
  /** `until` is null while it lasts. */
  paused: (from: string, until: string | null, reason: string) => string;
  further: (lines: number, duration: string) => string;
  promised: Readonly<Record<ReckonedPromise['clock']['promise'], string>>;
  within: (what: string, duration: string) => string;
  reported: (at: string) => string;
  standsStill: string;
  neverOpens: string;
}

/** The sentences of clocks in a language. */
export function clockSentences(terms: ClockTerms): ClockWords {
  const line = (fact: ClockLine, zone: string) => lineOf(terms, fact, zone);
  return {
    language: terms.language,
    troubleClass: terms.troubleClass,
    pausedFor: terms.pausedFor,
    line,
    reckoning: (reckoned) => reckoningOf(terms, reckoned),
  };
}

function dayOf({ locale }: ClockTerms, instant: number, timeZone: string): string {
  return new Intl.DateTimeFormat(locale, {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    timeZone,
  })
    .format(instant)
    .replace(',', '');
}

function timeOf({ locale }: ClockTerms, instant: number, timeZone: string): string {
  return new Intl.DateTimeFormat(locale, {
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    timeZone,
  }).format(instant);
}

function dayAndTime(terms: ClockTerms, instant: number, timeZone: string): string {
  return `${dayOf(terms, instant, timeZone)}, ${timeOf(terms, instant, timeZone)}`;
}

/** "3 h 20 min"; seconds only where they are not whole minutes. */
function duration({ units: [hour, minute, second] }: ClockTerms, ms: number): string {
  const seconds = Math.round(ms / 1000);
  const parts: [number, string][] = [
    [Math.floor(seconds / 3600), hour],
    [Math.floor(seconds / 60) % 60, minute],
    [seconds % 60, second],
  ];
  const told = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count} ${unit}`);
  return told.length === 0 ? `0 ${minute}` : told.join(' ');
}

function closed(terms: ClockTerms, { from, to, why, name }: Closed): string {
  const first = dayOf(terms, Date.parse(from), 'UTC');
  const days = from === to ? first : terms.range(first, dayOf(terms, Date.parse(to), 'UTC'));
  return why === 'no-hours' ? terms.noHours(days) : terms.closed(days, name ?? terms.closedBy[why]);
}

function lineOf(terms: ClockTerms, fact: ClockLine, zone: string): string {
  switch (fact.kind) {
    case 'counted': {
      const hours = terms.range(timeOf(terms, fact.from, zone), timeOf(terms, fact.until, zone));
      const left = fact.leftMs === 0 ? terms.usedUp : terms.left(duration(terms, fact.leftMs));
      return `${dayOf(terms, fact.from, zone)}, ${hours}: ${duration(terms, fact.ms)}, ${left}`;
    }
    case 'closed':
      return closed(terms, fact);
    case 'paused': {
      const until = fact.until === null ? null : dayAndTime(terms, fact.until, zone);
      const evidence = fact.evidence === '' ? '' : ` (${fact.evidence})`;
      const reason = `${terms.pausedFor[fact.reason]}${evidence}`;
      return terms.paused(dayAndTime(terms, fact.from, zone), until, reason);
    }
    case 'further':
      return `… ${terms.further(fact.lines, duration(terms, fact.ms))}`;
  }
}

function reckoningOf(terms: ClockTerms, { zone, reportedAt, clock }: ReckonedPromise): string {
  const promised = duration(terms, clock.promisedMinutes * 60_000);
  const steps = clock.lines.map((fact) => {
    if (fact.kind !== 'counted' || fact.leftMs > 0) return lineOf(terms, fact, zone);
    const from = fact.from === reportedAt ? '' : `${dayAndTime(terms, fact.from, zone)} + `;
    return `${from}${duration(terms, fact.ms)} = ${timeOf(terms, fact.until, zone)}`;
  });
  const stopped = clock.state === 'paused' ? terms.standsStill : terms.neverOpens;
  const told = [
    terms.reported(dayAndTime(terms, reportedAt, zone)),
    ...steps,
    ...(clock.dueAt === null ? [stopped] : []),
  ];
  return `${terms.within(terms.promised[clock.promise], promised)}: ${told.join('; ')}`;
}
