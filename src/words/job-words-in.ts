import { EN_JOB } from './en/job.js';
import { ES_JOB } from './es/job.js';
import { FR_JOB } from './fr/job.js';
import { HI_JOB } from './hi/job.js';
import type { JobWords } from './job-words.js';
import type { Language } from './languages.js';

// Apart from the index, which every page loads: of the pages only a job sheet says this.
const JOBS: Readonly<Record<Language, JobWords>> = {
  en: EN_JOB,
  es: ES_JOB,
  hi: HI_JOB,
  fr: FR_JOB,
};

/** What a job sheet says. */
export function jobWordsIn(language: Language): JobWords {
  return JOBS[language];
}
