import type { ContractVisitsDto } from '../contracts/contract-visit.dto.js';
import type { Prices } from '../contracts/contract-account.js';
import type { Coverage } from '../contracts/contract-kinds.js';
import type { ClosedTime } from '../contracts/closed-time.js';
import type { LearnedAtSites } from '../history/learned-rates.js';
import type { WorkEntry } from '../history/work-done.js';
import type { FunctionName } from '../plan/functions.js';
import type { ClockQuestion } from '../promises/ticket-clock.js';
import type { AsBuilt } from '../sites/as-built.js';
import type { Language } from '../words/index.js';
import type { WorkTimes } from '../work-times/work-times.js';

/** A year of a contract with all that is said of it; instants in milliseconds since 1970, unless they are texts. */
export interface ReviewQuestion {
  contract: {
    id: string;
    title: string;
    clientName: string;
    currency: string;
    coverage: Coverage;
  };
  calendars: { name: string; times: ClosedTime[] }[];
  year: { number: number; from: string; until: string };
  now: number;
  language: Language;
  sites: ReviewedSite[];
  promisedVisits: ContractVisitsDto;
  visits: ReviewedVisit[];
  tickets: ReviewedTicket[];
  clocks: ClockQuestion[];
  failures: SiteFailure[];
  /** The day from which there is a record of the failures. */
  recordedSince: string;
  rates: LearnedAtSites[];
  costs: FirmCosts;
  /** What the firm thinks of the MTBF before this record; null: what the model says. */
  prior: { evenHours: number; sureHours: number } | null;
}

export interface ReviewedSite {
  siteId: string;
  name: string;
  zone: string;
  asBuilt: AsBuilt;
}

export interface ReviewedVisit {
  id: string;
  siteId: string;
  kind: 'planned' | 'call-out';
  on: string;
  technician: string | null;
  workDone: string | null;
  minutesOnSite: number | null;
  travelMinutes: number | null;
  tickets: number[];
  signatures: { name: string; remark: string | null; drawn: string | null; signedAt: string }[];
}

/** What somebody said of a function at a station; instants as RFC 3339. */
export interface SaidOfPoint {
  trunk: string;
  node: string;
  function: FunctionName;
  outcome: 'works' | 'weak' | 'fails';
  at: string;
}

export interface ReviewedTicket {
  ticketId: string;
  number: number;
  siteId: string;
  state: string;
  closedAt: string | null;
  followUpDueOn: string | null;
  /** It was reported in the year; others only kept rooms silent in it. */
  isOfYear: boolean;
  said: SaidOfPoint[];
  moves: { at: string; from: string; to: string }[];
  work: (Omit<WorkEntry, 'ticketId' | 'happenedAt'> & { happenedAt: string })[];
}

/** Something was found and mended. */
export interface SiteFailure {
  siteId: string;
  at: string;
}

/** What work takes and costs at this firm, as it wrote it down. */
export interface FirmCosts {
  prices: Prices | null;
  times: WorkTimes;
  /** What a call-out with one thing found and mended takes by its own times. */
  usualCallOutMinutes: number;
  callOuts: TakenMinutes;
  upkeep: TakenMinutes;
  mendings: number;
  /** Parts of those mendings, added up. */
  parts: { name: string; quantity: number }[];
  /** Call-outs of the record on which something was found and mended. */
  callOutsWithMending: number;
}

/** Visits that were done, with what they took. */
export interface TakenMinutes {
  visits: number;
  meanMinutes: number | null;
  /** Of the logarithms of the minutes: their mean, and their deviation, null with fewer than two. */
  meanLog: number | null;
  logDeviation: number | null;
  meanTravelMinutes: number | null;
}
