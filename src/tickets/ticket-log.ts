import type { Place } from '../drawing/drawn-node.js';
import type { SeenPart } from '../looks/look.js';
import type { RequestReading } from '../locator/index.js';

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
  'walk-test',
  'move',
  'merged-in',
  'merged-away',
  'split-off',
  'split-from',
] as const;

export type EntryKind = (typeof ENTRY_KINDS)[number];

/** What an entry says beyond who and when; which members there are depends on its kind. */
export interface EntryDetails {
  note?: string | null;
  /** report: how it came about, and whether it joined a ticket that was open already. */
  how?: string;
  joined?: boolean;
  /** report, walk-test: rooms on the list that were not checked. */
  notChecked?: { trunk: string; node: string; function: string }[];
  /** answer */
  question?: string;
  answer?: string;
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
  /** mending */
  mending?: 'lasting' | 'temporary';
  what?: string;
  parts?: { name: string; quantity: number }[];
  followUpDueOn?: string | null;
  minutes?: number | null;
  /** move, withdrawal */
  reason?: string | null;
  /** move */
  from?: string;
  to?: string;
  /** merges and splits: the other ticket. */
  otherTicketId?: string;
  /** merges and splits: the observations, readings and looks that went along; withdrawal: the one that is taken back. */
  observationIds?: string[];
  readingIds?: string[];
  lookIds?: string[];
}
