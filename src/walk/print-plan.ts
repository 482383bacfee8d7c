import { PlanBranch, PlanNext, PlanStep } from './walk-plan.js';
import { WalkProblem } from './walk-problem.js';

/**
 * A plan as lines of plain text, two spaces deeper for each step:
 *
 *     Look at the lamp in Room 9 (3 min).
 *       If lit (62 %): Open the terminals at Room 12 (6 min).
 */
export function printPlan(problem: WalkProblem, next: PlanNext): string[] {
  if (next === 'done') return ['Everything works.'];
  if (next === 'plan-again') return ['Ask again here.'];
  const again = next.branches.filter((branch) => branch.next === 'plan-again');
  // Several endings that say the same are one line: on paper only what goes on somewhere is worth a line.
  const together = again.length > 1 && again.length < next.branches.length ? again : [];
  const told = next.branches.filter((branch) => !together.includes(branch));
  return [
    toDo(problem, next),
    ...told.flatMap((branch) => branchLines(problem, next, branch)),
    ...otherwise(together),
  ];
}

function otherwise(branches: readonly PlanBranch[]): string[] {
  if (branches.length === 0) return [];
  const chance = branches.reduce((sum, { probability }) => sum + probability, 0);
  return [`  Otherwise (${percent(chance)}): Ask again here.`];
}

function percent(chance: number): string {
  const rounded = Math.round(100 * chance);
  return rounded === 0 ? 'less than 1 %' : `${rounded} %`;
}

function toDo({ checks, places }: WalkProblem, { action, minutes }: PlanStep): string {
  const label = action.kind === 'check' ? checks[action.check]?.label : places[action.place]?.label;
  return `${label} (${Math.max(1, Math.round(minutes))} min).`;
}

function branchLines(problem: WalkProblem, step: PlanStep, branch: PlanBranch): string[] {
  const [first = '', ...deeper] = printPlan(problem, branch.next);
  return [
    `  If ${whatIsSeen(problem, step, branch)} (${percent(branch.probability)}): ${first}`,
    ...deeper.map((line) => `  ${line}`),
  ];
}

function whatIsSeen({ checks, places }: WalkProblem, { action }: PlanStep, branch: PlanBranch) {
  const check = action.kind === 'check' ? action.check : places[action.place]?.check;
  const outcome =
    check === undefined || branch.outcome === null ? null : checks[check]?.outcomes[branch.outcome];
  if (action.kind === 'check') return outcome;
  if (branch.isFound)
    return branch.next === 'done'
      ? 'at fault, mend it'
      : 'at fault, mend it; if something still fails';
  return outcome === null ? 'sound' : `sound and ${outcome}`;
}
