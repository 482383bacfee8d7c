import { carrying } from '../compute/carried-error.js';
import { highsSolver } from './highs-solver.js';
import { proveQuarter } from './prove-quarter.js';
import type { QuarterProblem } from './quarter-problem.js';

const solve = await highsSolver();

export default carrying((problem: QuarterProblem) => proveQuarter(problem, solve));
