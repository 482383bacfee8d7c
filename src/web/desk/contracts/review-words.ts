import { PAGE_LANGUAGE } from '../../parts/language.js';
import type { ReadReview } from '../../parts/wire.js';
import { reviewWordsIn } from '#app/words/review-words-in.js';

/** What the paper of a review says: its page says the same. */
export const REVIEW_WORDS = reviewWordsIn(PAGE_LANGUAGE);

export function siteNameIn({ sites }: ReadReview, siteId: string): string {
  return sites.find((site) => site.siteId === siteId)?.name ?? '';
}
