import { carrying } from '../compute/carried-error.js';
import { highsSolver } from './highs-solver.js';
import { type QuarterQuestion, reasonQuarter } from './reason-quarter.js';

const solve = await highsSolver();

export default carrying((question: QuarterQuestion) => reasonQuarter(question, solve));
