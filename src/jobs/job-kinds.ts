/** What each kind of work is told; the firm that it is of goes along by itself. */
export interface JobData {
  /** Sends one mail of the outbox. */
  mail: { mailId: string };
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
}

/** Kinds of work that is done after the request that causes it, each a queue of its own. */
export const JOB_KINDS: Record<JobKind, JobSettings> = {
  mail: { retryLimit: 8, retryDelay: 30, retryBackoff: true, expireInSeconds: 120 },
};

/** The queue of what was tried as often as it may be; nobody works on it. */
export const FAILED_JOBS = 'failed-jobs';

/** The schema of pg-boss’s tables. */
export const JOB_SCHEMA = 'jobs';
