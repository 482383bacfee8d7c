export type { ProbableWorld, ProbableWorlds, WorldFault } from './probable-world.js';
export { MOST_WORLDS, probableWorlds } from './probable-worlds.js';
export { type WorldAnswers, worldReader } from './world-answers.js';
