import type { ClockLine, Pause } from '../promises/promise-clock.js';
import type { ClockWords, ReckonedPromise } from './clock-words.js';

type PausedWhy = Pause['reason'];
type Closed = Extract<ClockLine, { kind: 'closed' }>;

/** What a language says of clocks; how it writes days and times is Intl's. */
export interface ClockTexts extends Pick<ClockWords, 'language' | 'troubleClass'> {
  locale: string;
  paused: Readonly<Record<PausedWhy, string>>;
  promised: Readonly<Record<ReckonedPromise['clock']['promise'], string>>;
  units: { hours: string; minutes: string; seconds: string };
  /** "8:00 to 9:00", of times or of days. */
  fromTo: (from: string, to: string) => string;
  left: (duration: string) => string;
  usedUp: string;
  noHours: string;
  closed: (why: string) => string;
  closedWhy: Readonly<Record<Exclude<Closed['why'], 'no-hours'>, string>>;
  pausedFrom: (from: string, until: string | null) => string;
  further: (lines: number) => string;
  within: (what: string, duration: string) => string;
  reported: (when: string) => string;
  standsStill: string;
  neverOpen: string;
}

/** Promised times as sentences of one language: the same steps in the same order in all of them. */
export function clockSentences(texts: ClockTexts): ClockWords {
  const days = (timeZone: string) =>
    new Intl.DateTimeFormat(texts.locale, {
      weekday: 'long',
      day: 'numeric',
      month: 'long',
      timeZone,
    });
  const dayOf = (instant: number, zone: string) =>
    // English as it is written here has no comma behind the weekday.
    texts.language === 'en'
      ? days(zone).format(instant).replace(',', '')
      : days(zone).format(instant);
  const timeOf = (instant: number, timeZone: string) =>
    new Intl.DateTimeFormat(texts.locale, { timeStyle: 'short', timeZone }).format(instant);
  const dayAndTime = (instant: number, zone: string) =>
    `${dayOf(instant, zone)}, ${timeOf(instant, zone)}`;

  const duration = (ms: number) => durationIn(texts.units, ms);

  const closed = ({ from, to, why, name }: Closed): string => {
    const [first = '', last = ''] = [from, to].map((day) => dayOf(Date.parse(day), 'UTC'));
    const which = from === to ? first : texts.fromTo(first, last);
    const reason = why === 'no-hours' ? texts.noHours : texts.closed(name ?? texts.closedWhy[why]);
    return `${which}: ${reason}`;
  };

  const line = (fact: ClockLine, zone: string): string => {
    switch (fact.kind) {
      case 'counted': {
        const hours = texts.fromTo(timeOf(fact.from, zone), timeOf(fact.until, zone));
        const left = fact.leftMs === 0 ? texts.usedUp : texts.left(duration(fact.leftMs));
        return `${dayOf(fact.from, zone)}, ${hours}: ${duration(fact.ms)}, ${left}`;
      }
      case 'closed':
        return closed(fact);
      case 'paused': {
        const until = fact.until === null ? null : dayAndTime(fact.until, zone);
        const evidence = fact.evidence === '' ? '' : ` (${fact.evidence})`;
        const when = texts.pausedFrom(dayAndTime(fact.from, zone), until);
        return `${when}: ${texts.paused[fact.reason]}${evidence}`;
      }
      case 'further':
        return `… ${texts.further(fact.lines)}: ${duration(fact.ms)}`;
    }
  };

  const reckoning = ({ zone, reportedAt, clock }: ReckonedPromise): string => {
    const promised = duration(clock.promisedMinutes * 60_000);
    const steps = clock.lines.map((fact) => {
      if (fact.kind !== 'counted' || fact.leftMs > 0) return line(fact, zone);
      const from = fact.from === reportedAt ? '' : `${dayAndTime(fact.from, zone)} + `;
      return `${from}${duration(fact.ms)} = ${timeOf(fact.until, zone)}`;
    });
    const all = [texts.reported(dayAndTime(reportedAt, zone)), ...steps];
    if (clock.dueAt === null) {
      all.push(clock.state === 'paused' ? texts.standsStill : texts.neverOpen);
    }
    return `${texts.within(texts.promised[clock.promise], promised)}: ${all.join('; ')}`;
  };

  return { language: texts.language, troubleClass: texts.troubleClass, line, reckoning };
}

/** "3 h 20 min"; seconds only where they are not whole minutes. */
function durationIn({ hours, minutes, seconds }: ClockTexts['units'], ms: number): string {
  const all = Math.round(ms / 1000);
  const parts: [number, string][] = [
    [Math.floor(all / 3600), hours],
    [Math.floor(all / 60) % 60, minutes],
    [all % 60, seconds],
  ];
  const told = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count} ${unit}`);
  return told.length === 0 ? `0 ${minutes}` : told.join(' ');
}
