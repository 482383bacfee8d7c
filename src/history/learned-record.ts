import {
  type ClosedCall,
  learnErrors,
  type LearnedErrors,
  type PastLook,
} from './learned-errors.js';
import { learnClasses, type Learned } from './learned-rates.js';

/** What a firm's record is learned from. */
export type RecordedWork = Parameters<typeof learnClasses>[0] & {
  calls: readonly ClosedCall[];
  looks: readonly PastLook[];
};

export interface LearnedRecord extends Learned {
  /** Null: no call was closed, nothing was looked at. */
  errors: LearnedErrors | null;
}

/** What breaks how often, how often calls are about nothing, how often looks miss. */
export function learnRecord({ calls, looks, ...work }: RecordedWork): LearnedRecord {
  const isEmpty = calls.length === 0 && looks.length === 0;
  return { ...learnClasses(work), errors: isEmpty ? null : learnErrors(work.sites, calls, looks) };
}
