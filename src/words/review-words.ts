import type { FunctionName } from '../plan/functions.js';
import type { VisitStanding } from '../contracts/kept-visits.js';
import type { WindowOfWeek } from './covered-hours.js';
import type { Formats } from './formats.js';
import type { Language } from './languages.js';

/** What the papers of a contract and of a visit say. */
export interface ReviewWords {
  language: Language;
  formats: Formats;
  title: (contract: string) => string;
  period: (from: string, last: string) => string;
  /** When what is promised runs: a sentence. */
  coveredHours: (windows: readonly WindowOfWeek[]) => string;
  page: (page: number, pages: number, asOf: string) => string;
  headings: Readonly<Record<ReviewHeading, string>>;
  columns: Readonly<Record<ReviewColumn, string>>;
  standings: Readonly<Record<VisitStanding, string>>;
  functions: Readonly<Record<FunctionName, string>>;
  promises: Readonly<Record<'response' | 'restore', string>>;
  promiseStates: Readonly<Record<'running' | 'paused' | 'met' | 'breached', string>>;
  ticket: (number: number, site: string) => string;
  ticketsElsewhere: (count: number) => string;
  none: string;
  found: (words: string) => string;
  nothingFound: string;
  mended: (what: string, mending: 'lasting' | 'temporary') => string;
  breachCause: (cause: string) => string;
  minutes: (minutes: number) => string;
  money: (minor: number, currency: string) => string;
  hours: (hours: number) => string;
  availabilityNote: string;
  record: (told: { failures: number; siteHours: number; since: string }) => string;
  mtbf: (
    told: { mtbfHours: number | null; lowHours: number; highHours: number | null },
    confidence: number,
  ) => string;
  posterior: (
    told: { medianHours: number; lowHours: number; highHours: number },
    from: 'firm' | 'model',
  ) => string;
  growth: (growth: number, mtbfHours: number) => string;
  trend: (name: 'laplace' | 'logSum' | 'reverseArrangements', pRarer: number) => string;
  trendWarning: Readonly<Record<'few' | 'too-few', string>>;
  siteAvailable: (availability: number, hoursToRestore: number) => string;
  advised: (told: {
    chance: number;
    chanceRenewed: number;
    cost: string | null;
    paysBackYears: number | null;
  }) => string;
  unfinished: (number: number, site: string, dueOn: string | null) => string;
  nothingAdvised: string;
  signedBy: (name: string, at: string) => string;
  toSign: readonly string[];
  /** What heads the sheet of all numbers, and the first column; figures keep the names of the API. */
  sheet: {
    columns: Readonly<Record<'section' | 'site' | 'of' | 'figure' | 'value', string>>;
    sections: Readonly<Record<SheetSection, string>>;
  };
}

export type SheetSection =
  | 'promisedVisits'
  | 'visits'
  | 'tickets'
  | 'clocks'
  | 'parts'
  | 'promises'
  | 'availability'
  | 'reliability'
  | 'advised'
  | 'unfinished';

type ReviewHeading =
  | 'promisedVisits'
  | 'visits'
  | 'promises'
  | 'tickets'
  | 'availability'
  | 'reliability'
  | 'advised'
  | 'signatures';

type ReviewColumn =
  | 'site'
  | 'slot'
  | 'standing'
  | 'madeOn'
  | 'day'
  | 'technician'
  | 'work'
  | 'minutes'
  | 'signed'
  | 'promise'
  | 'met'
  | 'breached'
  | 'open'
  | 'mean'
  | 'function'
  | 'rooms'
  | 'roomHours'
  | 'lost'
  | 'available';
