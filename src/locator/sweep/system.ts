import type { CoreSet } from '../../plan/cores.js';
import { DEFAULT_PLAN } from '../../plan/default-plan.js';
import type { Plan } from '../../plan/plan.js';
import { type PlanTables, tablesOf } from '../../plan/plan-tables.js';
import type { EffectClasses } from './effect-classes.js';
import { FeedClasses } from './feed-classes.js';
import { StateSpace } from './state-space.js';
import { StationClasses } from './station-classes.js';

/** A plan made ready for the sweeps: what in it acts alike is one class. */
export interface System {
  readonly plan: PlanTables;
  readonly feedClasses: FeedClasses;
  readonly stationClasses: StationClasses;
  /** The states of a trunk of which nothing was told while it was disconnected somewhere, and what leads from one to another. */
  readonly states: StateSpace;
  readonly effects: EffectClasses;
  /** Of these states that of a view and a class of feed; -1 where the two cannot be together. */
  readonly stateOf: (view: CoreSet, feed: number) => number;
}

const known = new WeakMap<Plan, System>();

/**
 * Made once for each plan.
 * @throws InvalidPlan
 */
export function systemOf(plan: Plan = DEFAULT_PLAN): System {
  const found = known.get(plan) ?? makeSystem(tablesOf(plan));
  known.set(plan, found);
  return found;
}

function makeSystem(plan: PlanTables): System {
  const feedClasses = new FeedClasses(plan);
  const states = new StateSpace(plan, feedClasses, {
    reaches: [],
    seenIn: [1],
    points: [{ cutOff: 0, beyond: 0 }],
  });
  const stationClasses = new StationClasses(plan);
  const { count } = feedClasses;
  const index = Int8Array.from({ length: (feedClasses.shortable + 1) * count }, (_, i) =>
    states.stateAt([Math.floor(i / count)], [i % count]),
  );
  return {
    plan,
    feedClasses,
    stationClasses,
    states,
    effects: states.effects,
    stateOf: (view, feed) => index[view * count + feed] ?? -1,
  };
}
