import type { FunctionName } from '../plan/functions.js';
import type { Oddity } from '../reports/oddities.js';
import type { Language } from './languages.js';

/** What came of trying a function, as somebody at the site says it. */
export interface TriedWords {
  /** As an answer to "what was tried?". */
  tried: string;
  fails: string;
  works: string;
  weak: string;
}

export type TicketStateName =
  'reported' | 'to-visit' | 'at-work' | 'bridged' | 'mended' | 'closed' | 'merged';

/** In the order in which an office thinks of them. */
export const FUNCTIONS_AS_ASKED: readonly FunctionName[] = [
  'announcement',
  'bell',
  'music',
  'lamp',
  'room-call',
  'talkback',
];

/** What every page says. */
export interface PageWords {
  language: Language;
  /** What the language calls itself. */
  ownName: string;
  oneMoment: string;
  tryAgain: string;
  send: string;
  sending: string;
  functions: Readonly<Record<FunctionName, TriedWords>>;
  /** A station without a room's name. */
  unit: (code: string) => string;
  line: (trunk: string) => string;
  floor: (floor: string) => string;
  instant: (instant: string, timeZone: string) => string;
  /** Where a signature is drawn by hand. */
  pen: { label: string; box: (isDrawn: boolean) => string; again: string };
  notReached: string;
  /** What was to be done with it goes no longer: somebody else was quicker. */
  movedMeanwhile: string;
  notReady: string;
  closedMeanwhile: string;
  wentWrong: string;
  nothingHere: string;
  nothingHereWhy: string;
  failedNow: string;
  /** What is shown may be old, and why. */
  maybeOld: (reason: string) => string;
}

/** What the page behind a site's pass says: no word of the trade, nothing that needs explaining. */
export interface OfficeWords {
  title: (site: string) => string;
  report: {
    heading: string;
    whatTried: string;
    whichRooms: string;
    rooms: string;
    touch: (words: TriedWords) => string;
    notSaid: string;
    yourName: string;
    count: (
      counts: Readonly<Record<'fails' | 'works' | 'weak', number>>,
      words: TriedWords,
    ) => string;
    /** All rooms of the site at once; `all` and `clear`: what a touch of a whole floor says of it next. */
    everywhere: string;
    all: (mark: string) => string;
    clear: string;
    oddities: { legend: string } & Readonly<Record<Oddity, string>>;
    note: string;
    urgent: string;
    whyUrgent: string;
    callBack: string;
    /** Where there is no drawing whose rooms could be touched. */
    inWords: { label: string; hint: string };
    missing: {
      something: string;
      tried: string;
      rooms: string;
      name: string;
      whyUrgent: string;
      inWords: string;
    };
    thanks: (numbers: readonly number[]) => string;
    more: string;
  };
  /** How the firm that looks after the site is reached; the number follows. */
  ring: (firm: string) => string;
  nextVisit: (
    next: { on: string; fromTime: string | null; kind: 'planned' | 'call-out' } | null,
  ) => string;
  /** A visit has begun. */
  atWork: string;
  /** What a visit that is set depends on. */
  mayChange: string;
  ticket: {
    heading: (number: number) => string;
    since: (instant: string) => string;
    states: Readonly<Record<TicketStateName, string>>;
    open: string;
    ofTicket: (number: number) => string;
    openHeading: string;
    openCount: (count: number) => string;
    notWorking: (tried: string, rooms: readonly string[]) => string;
    saidToWork: (tried: string, rooms: readonly string[]) => string;
  };
  check: {
    heading: string;
    why: string;
    lookOnly: string;
    suggestion: (words: string, minutes: number) => string;
    wasItSo: string;
    andNow: string;
    answers: { yes: string; no: string; unknown: string };
    noted: string;
  };
  sign: {
    heading: string;
    count: (count: number) => string;
    visit: (day: string) => string;
    nothingWritten: string;
    remark: string;
    button: string;
    signed: (day: string, name: string) => string;
  };
  emergency: { label: string; heading: string; text: string };
  over: { replaced: string; openLink: string; notNow: string; scanAgain: string };
}
