import { EN_REVIEW } from './en/review.js';
import { ES_REVIEW } from './es/review.js';
import { FR_REVIEW } from './fr/review.js';
import { HI_REVIEW } from './hi/review.js';
import type { Language } from './languages.js';
import type { ReviewWords } from './review-words.js';

// Apart from the index, which every page loads: of the pages only the desk says this.
const REVIEWS: Readonly<Record<Language, ReviewWords>> = {
  en: EN_REVIEW,
  es: ES_REVIEW,
  hi: HI_REVIEW,
  fr: FR_REVIEW,
};

/** What the papers of a contract say. */
export function reviewWordsIn(language: Language): ReviewWords {
  return REVIEWS[language];
}
