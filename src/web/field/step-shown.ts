import type { WalkStep } from '#app/walks/plan-ticket-walk.js';
import type { Planned } from './plan-thread.js';

export interface StepShown {
  /** Null: there is none to show. */
  step: WalkStep | null;
  /** What has come since and shows something else: it waits for whoever is there to take it. */
  newer: Planned | undefined;
}

/**
 * What is shown once something is planned. A step on the screen stays, with its buttons, as somebody may be touching it: what is
 * planned anew takes its place unasked only where it looks the same.
 */
export function stepShown(before: WalkStep | null, planned: Planned | undefined): StepShown {
  if (planned === undefined) return { step: before, newer: undefined };
  const next = nextOf(planned);
  if (before === null || (next !== null && looksOf(before) === looksOf(next)))
    return { step: next, newer: undefined };
  return { step: before, newer: planned };
}

export function nextOf(planned: Planned): WalkStep | null {
  return 'plan' in planned ? planned.plan.next : null;
}

function looksOf({ words, where, endings }: WalkStep): string {
  return JSON.stringify([words, where, endings.map(({ seen }) => seen)]);
}
