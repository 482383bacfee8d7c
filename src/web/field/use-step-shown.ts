import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { WalkStep } from '#app/walks/plan-ticket-walk.js';
import type { Planned } from './plan-thread.js';
import { nextOf, type StepShown, stepShown } from './step-shown.js';

interface UsedStep extends StepShown {
  /** A step ended by a touch: what comes next by the plan before, and whatever is planned by then, is shown at once. */
  end: (next: WalkStep | null) => void;
  /** Shows the newer one. */
  take: () => void;
}

/**
 * The step on the screen, which stays until whoever is there ends it or takes another.
 * @param key what `planned` is the plan of: another once something was entered, here or elsewhere
 * @param failure why what the touch entered could not be kept: then nothing has ended
 */
export function useStepShown(
  planned: Planned | undefined,
  key: string,
  failure: string | undefined,
): UsedStep {
  const [, setTaken] = useState(0);
  const shown = useRef<{ step: WalkStep | null; key: string }>({ step: null, key });
  const ended = useRef<{ next: WalkStep | null }>(undefined);
  const isEnded = ended.current !== undefined && key !== shown.current.key;
  const now = isEnded
    ? {
        step: planned === undefined ? (ended.current?.next ?? null) : nextOf(planned),
        newer: undefined,
      }
    : stepShown(shown.current.step, planned);
  useLayoutEffect(() => {
    shown.current = { step: now.step, key };
    if (isEnded || failure !== undefined) ended.current = undefined;
  });
  return {
    ...now,
    end: (next) => {
      // The second touch of two ends nothing.
      ended.current ??= { next };
    },
    take: () => {
      shown.current = { step: null, key };
      setTaken((times) => times + 1);
    },
  };
}
