import { carrying } from '../compute/carried-error.js';
import { makeReview } from './make-review.js';
import type { ReviewQuestion } from './review-question.js';
import { reviewSheet } from './review-sheet.js';

export default carrying((question: ReviewQuestion) =>
  reviewSheet(makeReview(question), question.language),
);
