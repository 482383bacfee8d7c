import { carrying } from '../compute/carried-error.js';
import { makeReview } from './make-review.js';
import type { ReviewQuestion } from './review-question.js';
import { reviewPaper } from './review-paper.js';

export default carrying((question: ReviewQuestion) =>
  reviewPaper(makeReview(question), question.language),
);
