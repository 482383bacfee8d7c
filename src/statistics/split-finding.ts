import { StatisticsError, requireWithin } from './statistics-error.js';

/** The chance of one fault mode of one component when the finding was made. */
export interface ModeShare {
  component: string;
  mode: string;
  probability: number;
}

/** What was found; a part left out was not told ("the joint box was remade, all works"). */
export interface Finding {
  component?: string;
  mode?: string;
}

/** Part of one event in the record of a component's mode. */
export interface EventShare {
  component: string;
  mode: string;
  events: number;
}

/**
 * One repair as events for the rates: by the posterior share of each fault mode that the finding
 * leaves open, so that a certain finding counts once and an uncertain one is spread, in all once.
 * `posterior` holds fault modes only. Throws {@link StatisticsError} if the finding leaves none.
 */
export function splitFinding(posterior: readonly ModeShare[], found: Finding): EventShare[] {
  if (found.component !== undefined && found.mode !== undefined) {
    return [{ component: found.component, mode: found.mode, events: 1 }];
  }
  posterior.forEach(({ probability }, i) => {
    requireWithin(`posterior/${i}/probability`, probability, 0, 1);
  });
  const open = posterior.filter(
    ({ component, mode, probability }) =>
      probability > 0 &&
      component === (found.component ?? component) &&
      mode === (found.mode ?? mode),
  );
  const total = open.reduce((sum, { probability }) => sum + probability, 0);
  if (total === 0) throw new StatisticsError('finding', 'no fault mode that was possible fits it');
  return open.map(({ component, mode, probability }) => {
    return { component, mode, events: probability / total };
  });
}
