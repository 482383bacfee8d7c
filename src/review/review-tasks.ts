import type { Task } from '../compute/compute.service.js';
import { StatisticsError } from '../statistics/statistics-error.js';
import type { ReviewDto } from './review.dto.js';
import type { ReviewQuestion } from './review-question.js';
import type { ShouldCostQuestion } from './should-cost.js';
import type { ShouldCostDto } from './should-cost.dto.js';

const errors = { StatisticsError };

/** A year of a contract as a client is shown it. */
export const MAKE_REVIEW: Task<ReviewQuestion, ReviewDto> = {
  file: new URL('./make-review.worker.js', import.meta.url),
  errors,
};

/** Every number of it as a sheet. */
export const REVIEW_SHEET: Task<ReviewQuestion, string> = {
  file: new URL('./review-sheet.worker.js', import.meta.url),
  errors,
};

/** All of it as a PDF. */
export const REVIEW_PAPER: Task<ReviewQuestion, Uint8Array> = {
  file: new URL('./review-paper.worker.js', import.meta.url),
  errors,
  isSlow: true,
};

/** What the next year of some sites is expected to take. */
export const SHOULD_COST: Task<ShouldCostQuestion, ShouldCostDto> = {
  file: new URL('./should-cost.worker.js', import.meta.url),
  errors: {},
};
