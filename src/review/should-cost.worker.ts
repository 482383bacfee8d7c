import { carrying } from '../compute/carried-error.js';
import { shouldCost } from './should-cost.js';

export default carrying(shouldCost);
