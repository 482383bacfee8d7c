import type { ClockLine } from '../promises/promise-clock.js';
import type { TroubleClass } from '../contracts/class-of-trouble.js';
import type { PromiseClock } from '../promises/ticket-clock.js';
import type { Language } from './languages.js';

/** What a promise was reckoned from. */
export interface ReckonedPromise {
  zone: string;
  /** Milliseconds since 1970. */
  reportedAt: number;
  clock: Pick<PromiseClock, 'promise' | 'promisedMinutes' | 'state' | 'dueAt' | 'lines'>;
}

/** How a promised time was reckoned, and how it stands. */
export interface ClockWords {
  language: Language;
  troubleClass: Readonly<Record<TroubleClass, string>>;
  pausedFor: Readonly<Record<Extract<ClockLine, { kind: 'paused' }>['reason'], string>>;
  /** One fact by itself. */
  line: (line: ClockLine, zone: string) => string;
  /** All of it in one sentence: from the report to the due instant. */
  reckoning: (reckoned: ReckonedPromise) => string;
}
