import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { WalkStep } from '#app/walks/plan-ticket-walk.js';
import type { Planned } from './plan-thread.js';
import { type EndedStepShown, shownAfter, type StepShown } from './step-shown.js';
import { useField } from './use-field.js';

interface UsedStep extends StepShown {
  /** A step ended by a touch: what comes next by the plan before, or whatever is planned by then, is shown once that is kept. */
  end: (next: WalkStep | null) => void;
  /** Shows the newer one. */
  take: () => void;
}

/**
 * The step on the screen, which stays until whoever is there ends it or takes another.
 * @param hasFailed what the touch entered could not be kept
 */
export function useStepShown(planned: Planned | undefined, hasFailed: boolean): UsedStep {
  const { entries } = useField();
  const [, setTaken] = useState(0);
  const shown = useRef<WalkStep | null>(null);
  const ended = useRef<EndedStepShown>(undefined);
  const newestEntry = entries.reduce((most, { order }) => Math.max(most, order), 0);
  const { ended: endedYet, ...now } = shownAfter(
    { step: shown.current, ended: ended.current },
    { planned, newestEntry, hasFailed },
  );
  useLayoutEffect(() => {
    shown.current = now.step;
    ended.current = endedYet;
  });
  return {
    ...now,
    end: (next) => {
      // What has come meanwhile plans otherwise: what follows by the plan before would be put away again.
      const known = now.newer === undefined ? next : null;
      // The second touch of two ends nothing.
      ended.current ??= { next: known, newestBefore: newestEntry };
    },
    take: () => {
      shown.current = null;
      setTaken((times) => times + 1);
    },
  };
}
