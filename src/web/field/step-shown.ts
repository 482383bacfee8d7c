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

/** A step that a touch ended, until what it entered is kept. */
export interface EndedStepShown {
  /** What comes then by the plan that was shown; null: that is worked out. */
  next: WalkStep | null;
  /** The newest entry of the phone at the touch, by its order: what the touch entered is newer. */
  newestBefore: number;
}

interface Drawing {
  planned: Planned | undefined;
  /** The newest entry of the phone, by its order; 0: there is none. */
  newestEntry: number;
  /** What the touch entered could not be kept: then nothing has ended. */
  hasFailed: boolean;
}

/**
 * The same where a touch may have ended the step. What is planned, or read, until its entry is kept is about the step that is still on
 * the screen, and ends nothing.
 */
export function shownAfter(
  before: { step: WalkStep | null; ended: EndedStepShown | undefined },
  { planned, newestEntry, hasFailed }: Drawing,
): StepShown & { ended: EndedStepShown | undefined } {
  const { step, ended } = before;
  if (ended === undefined || newestEntry <= ended.newestBefore)
    return { ...stepShown(step, planned), ended: hasFailed ? undefined : ended };
  const next = planned === undefined ? ended.next : nextOf(planned);
  return { step: next, newer: undefined, ended: undefined };
}

export function nextOf(planned: Planned): WalkStep | null {
  return 'plan' in planned ? planned.plan.next : null;
}

function looksOf({ words, where, endings }: WalkStep): string {
  return JSON.stringify([words, where, endings.map(({ seen }) => seen)]);
}
