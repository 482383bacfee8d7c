import { pointKey } from '../plan/functions.js';
import type { Heard } from './observation.js';

/** One function at one station. */
export interface FunctionAtStation {
  trunk: string;
  node: string;
  function: Heard['function'];
}

/**
 * The reported functions that no walk test has shown to work again since they were last reported or
 * mended: what stands between a ticket and its closing.
 */
export function stillToProve(heard: readonly Heard[], period: number): FunctionAtStation[] {
  const reported = new Map<string, FunctionAtStation>();
  const proven = new Set<string>();
  for (const one of oldestFirst(heard)) {
    const key = pointKey(one);
    if (one.outcome !== 'works') {
      reported.set(key, { trunk: one.trunk, node: one.node, function: one.function });
      proven.delete(key);
    } else if (one.how === 'walk-test' && one.period === period) {
      proven.add(key);
    }
  }
  return [...reported].filter(([key]) => !proven.has(key)).map(([, point]) => point);
}

/** Of what is still to be proven, what was last said to work: a mistake taken back, or a fault that went by itself. */
export function saidToWork(
  heard: readonly Heard[],
  points: readonly FunctionAtStation[],
): FunctionAtStation[] {
  const last = new Map(oldestFirst(heard).map((one) => [pointKey(one), one.outcome]));
  return points.filter((point) => last.get(pointKey(point)) === 'works');
}

function oldestFirst(heard: readonly Heard[]): Heard[] {
  return [...heard].sort((a, b) => a.observedAt.getTime() - b.observedAt.getTime());
}
