import type { Answer } from '../reports/ask-first.js';
import type { Place } from '../drawing/drawn-node.js';
import type { SeenPart } from '../looks/look.js';
import type { RequestReading } from '../locator/index.js';
import type { Oddity } from '../reports/oddities.js';

/** What can stand in a ticket's log. */
export const ENTRY_KINDS = [
  'report',
  'note',
  'answer',
  'reading',
  'look',
  'withdrawal',
  'finding',
  'mending',
  'withdrawn-mending',
  'walk-test',
  'move',
  'merged-in',
  'merged-away',
  'split-off',
  'split-from',
  'newer-record',
  'pause',
  'resume',
  'trouble-class',
  'breach-cause',
  'promise-warning',
  'promise-breach',
  'promise-changed',
] as const;

export type EntryKind = (typeof ENTRY_KINDS)[number];

/** How a check of the walk ended, by the key that the walk gives it. */
export interface EndedStep {
  check: string;
  ending: number;
}

/** Parts that a mending took out of somebody's van. */
export interface TakenFromVan {
  personId: string;
  parts: { name: string; quantity: number }[];
}

/** What an entry says beyond who and when; which members there are depends on its kind. */
export interface EntryDetails {
  note?: string | null;
  /** note: how a check of the walk ended that is no evidence by itself. */
  step?: EndedStep | undefined;
  /** report: why it cannot wait, a telephone number to call back on, and what else was odd. */
  urgentReason?: string | null;
  callBackPhone?: string | null;
  oddities?: readonly Oddity[];
  /** report: how it came about, and whether it joined a ticket that was open already. */
  how?: string;
  joined?: boolean;
  /** report, walk-test: rooms on the list that were not checked. */
  notChecked?: { trunk: string; node: string; function: string }[];
  /** answer */
  question?: string;
  answer?: Answer;
  /** reading */
  reading?: RequestReading;
  /** look */
  looks?: SeenPart[];
  /** finding */
  place?: Place | null;
  component?: string | null;
  mode?: string | null;
  /** The finding as events for the rates: whole if all was named, else by what was thought of it then. */
  shares?: { component: string; mode: string; events: number }[];
  /** mending, also one that was withdrawn */
  mending?: 'lasting' | 'temporary';
  what?: string;
  parts?: { name: string; quantity: number }[];
  followUpDueOn?: string | null;
  minutes?: number | null;
  /** mending: whose van parts were taken out of, and what; a piece of cable that was cut left its rest there, which is negative. */
  takenFrom?: TakenFromVan;
  /** move, withdrawal, pause, trouble-class */
  reason?: string | null;
  /** move */
  from?: string;
  to?: string;
  /** pause: what shows it. */
  evidence?: string;
  /** trouble-class: null is what evidence and causes say. */
  troubleClass?: string | null;
  /** breach-cause, promise-warning, promise-breach, promise-changed */
  promise?: 'response' | 'restore';
  /** breach-cause */
  cause?: string;
  /** promise-warning, promise-breach, promise-changed: RFC 3339 */
  dueAt?: string | null;
  /** promise-changed, and promise-breach where it came with a change: the due instant before. */
  wasDueAt?: string | null;
  /** newer-record: the versions of the record that it went by, and goes by. */
  fromVersion?: number;
  toVersion?: number;
  /** merges and splits: the other ticket. */
  otherTicketId?: string;
  /** merges and splits: the observations, readings and looks that went along; withdrawal: the one that is taken back. */
  observationIds?: string[];
  readingIds?: string[];
  lookIds?: string[];
  /** withdrawal: the mending that is taken back. */
  mendingIds?: string[];
}
