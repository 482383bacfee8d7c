/** Something that happened, as whoever knows it says it; told once to each that asked. */
export type Happening =
  | { kind: 'new-report'; ticketId: string; entryId: string }
  | { kind: 'breach-near'; ticketId: string; promise: 'response' | 'restore'; dueAt: string }
  | { kind: 'visit-tomorrow'; visitId: string; on: string }
  | { kind: 'work-to-sign'; visitId: string };

/** What each kind of work is told; the firm that it is of goes along by itself. */
export interface JobData {
  /** Sends one mail of the outbox. */
  mail: { mailId: string };
  /** Brings up to date where the trouble of a site's open tickets lies; null: of all sites. */
  locations: { siteId: string | null };
  /** Reckons a ticket’s promise clocks anew, or those of a site’s tickets; `at`: because something is to be told then. */
  'promise-clocks': { ticketId: string; at?: string } | { siteId: string };
  /** Frees the visits that were still to be made for a closed ticket. */
  'freed-visits': { ticketId: string };
  /** Tells who asked what happened. */
  notices: Happening;
  /** Sends one webhook. */
  webhook: { noticeId: string };
  /** Tells of the next day’s visits, and comes again in an hour. */
  'visits-ahead': object;
  /** Learns the rates from the firm's findings. */
  'learned-rates': object;
  /** Forgets what is kept for a time only, and comes again the next day. */
  retention: object;
}

export type JobKind = keyof JobData;

interface JobSettings {
  /** Further tries after the first; then it is put with the failed ones. */
  retryLimit: number;
  /** Seconds before the second try, doubled before each further one. */
  retryDelay: number;
  retryBackoff: true;
  /** Who has not ended it by then is taken for dead, and another takes it. */
  expireInSeconds: number;
  /** One of a firm at a time. */
  policy?: 'singleton' | 'short';
}

const ONE_OF_A_FIRM = {
  retryLimit: 5,
  retryDelay: 60,
  retryBackoff: true,
  expireInSeconds: 600,
} as const;

/** Kinds of work that is done after the request that causes it, each a queue of its own. */
export const JOB_KINDS: Record<JobKind, JobSettings> = {
  mail: { retryLimit: 8, retryDelay: 30, retryBackoff: true, expireInSeconds: 120 },
  'promise-clocks': { retryLimit: 8, retryDelay: 5, retryBackoff: true, expireInSeconds: 120 },
  'freed-visits': { retryLimit: 8, retryDelay: 5, retryBackoff: true, expireInSeconds: 120 },
  notices: { retryLimit: 8, retryDelay: 5, retryBackoff: true, expireInSeconds: 120 },
  // The last try comes two hours after the first.
  webhook: { retryLimit: 8, retryDelay: 30, retryBackoff: true, expireInSeconds: 120 },
  'visits-ahead': { ...ONE_OF_A_FIRM, policy: 'short' },
  locations: { retryLimit: 5, retryDelay: 5, retryBackoff: true, expireInSeconds: 300 },
  'learned-rates': { ...ONE_OF_A_FIRM, policy: 'singleton' },
  // One that waits is enough.
  retention: { ...ONE_OF_A_FIRM, policy: 'short' },
};

/**
 * Kinds that bring something up to date with what is known when they are done, so that one does for all with the same data
 * that wait by then.
 */
export const DONE_FOR_ALL: ReadonlySet<string> = new Set<JobKind>([
  'locations',
  'promise-clocks',
  'freed-visits',
  'learned-rates',
]);

/** The queue of what was tried as often as it may be; nobody works on it. */
export const FAILED_JOBS = 'failed-jobs';

/** The schema of pg-boss’s tables. */
export const JOB_SCHEMA = 'jobs';
