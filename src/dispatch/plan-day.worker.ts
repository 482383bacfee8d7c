import { carrying } from '../compute/carried-error.js';
import type { DayProblem } from './day-problem.js';
import { highsSolver } from './highs-solver.js';
import { reasonDay } from './reason-day.js';

const solve = await highsSolver();

export default carrying((problem: DayProblem) => reasonDay(problem, solve));
