import type { PlanBranch, PlanNext, PlanStep, WalkProblem } from '../walk/index.js';
import type { Words } from './words.js';

/**
 * A plan as lines of plain text, two spaces deeper for each step:
 *
 *     Look at the lamp in Room 9 (3 min).
 *       If it is lit (62 %): Open the terminals at Room 12 (6 min).
 */
export function planInText(problem: WalkProblem, next: PlanNext, words: Words): string[] {
  const { walk, formats } = words;
  if (next === 'done') return [walk.everythingWorks];
  if (next === 'plan-again') return [walk.askAgain];
  const again = next.branches.filter((branch) => branch.next === 'plan-again');
  // Several endings that say the same are one line: on paper only what goes on somewhere is worth a line.
  const together = again.length > 1 && again.length < next.branches.length ? again : [];
  const told = next.branches.filter((branch) => !together.includes(branch));
  const otherwise = together.reduce((sum, { probability }) => sum + probability, 0);
  return [
    words.walk.step(next.label, Math.max(1, Math.round(next.minutes))),
    ...told.flatMap((branch) => branchLines(problem, next, branch, words)),
    ...(together.length > 0
      ? [`  ${walk.otherwise(formats.chance(otherwise), walk.askAgain)}`]
      : []),
  ];
}

function branchLines(
  problem: WalkProblem,
  step: PlanStep,
  branch: PlanBranch,
  words: Words,
): string[] {
  const [first = '', ...deeper] = planInText(problem, branch.next, words);
  const seen = whatIsSeen(problem, step, branch, words);
  return [
    `  ${words.walk.ending(seen, words.formats.chance(branch.probability), first)}`,
    ...deeper.map((line) => `  ${line}`),
  ];
}

function whatIsSeen(
  { checks, places }: WalkProblem,
  { action }: PlanStep,
  branch: PlanBranch,
  { walk }: Words,
): string {
  const check = action.kind === 'check' ? action.check : places[action.place]?.check;
  const outcome =
    check === undefined || branch.outcome === null ? null : checks[check]?.outcomes[branch.outcome];
  if (action.kind === 'check') return outcome ?? '';
  if (action.kind === 'remake') return branch.next === 'done' ? walk.allWorks : walk.stillFails;
  if (branch.isFound) return branch.next === 'done' ? walk.mendIt : walk.mendItAndIf;
  return outcome == null ? walk.sound : walk.soundAnd(outcome);
}
