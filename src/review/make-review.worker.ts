import { carrying } from '../compute/carried-error.js';
import { makeReview } from './make-review.js';

export default carrying(makeReview);
