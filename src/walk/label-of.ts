import type { WalkAction, WalkProblem } from './walk-problem.js';

/** What to do, in words. */
export function labelOf({ checks, places }: WalkProblem, action: WalkAction): string {
  if (action.kind === 'check') return checks[action.check]?.label ?? '';
  const { label = '', remakeLabel = label } = places[action.place] ?? {};
  return action.kind === 'remake' ? remakeLabel : label;
}
