import { Drawing } from '../../drawing/drawing.js';
import type { Trouble } from '../causes/trouble-answer.js';
import type { LocateRequest } from '../request/locate-request.js';
import type { CheckAction } from './check-action.js';

/** By trunk and node, how likely the cause is in the span into it or at its station. */
type Suspicion = Map<string, number>;

const keyOf = (trunk: string, node: string) => JSON.stringify([trunk, node]);

function suspicionOf({ causes }: Trouble): Suspicion {
  const at: Suspicion = new Map();
  const add = (trunk: string, node: string, chance: number) =>
    at.set(keyOf(trunk, node), (at.get(keyOf(trunk, node)) ?? 0) + chance);
  for (const { cause, probability, within = [] } of causes) {
    if (cause.kind === 'span') add(cause.trunk, cause.to, probability);
    const sum = within.reduce((all, one) => all + one.probability, 0);
    for (const { place, probability: share } of within) {
      const chance = (probability * share) / sum;
      if (place.kind === 'span') add(place.trunk, place.to, chance);
      if (place.kind === 'station') add(place.trunk, place.node, chance);
    }
  }
  return at;
}

/**
 * How evenly a measurement parts the suspicion of one trouble: 1 where half of it lies on what was measured, 0 where all or
 * nothing does. What is measured is the stretch, or what is past a disconnection.
 */
export function evenlySplit(
  { trunks }: LocateRequest,
  trouble: Trouble,
): (action: CheckAction) => number {
  const drawing = new Drawing(trunks);
  const at = suspicionOf(trouble);
  const on = (trunk: string, nodes: readonly { id: string }[]) =>
    nodes.reduce((sum, { id }) => sum + (at.get(keyOf(trunk, id)) ?? 0), 0);
  return (action) => {
    let inside = 0;
    if (action.kind === 'isolation')
      inside = on(action.trunk, drawing.below(action.trunk, action.node));
    if (action.kind === 'continuity')
      inside =
        on(action.trunk, drawing.pathTo(action.trunk, action.to)) -
        on(action.trunk, drawing.pathTo(action.trunk, action.from));
    return 4 * inside * (1 - inside);
  };
}
