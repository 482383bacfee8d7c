import { type Heard, informantOf, pointKey } from './observation.js';

/** What was told within so many minutes was so at the same time. */
const SAME_SITTING_MINUTES = 30;

/**
 * The sitting of each observation, by its id, from 0. A new one begins after a pause, and where a technician finds
 * something other than before: that a room works now, after hands were on a joint, takes nothing back.
 */
export function sittingsOf(heard: readonly Heard[]): Map<string, number> {
  const sittings = new Map<string, number>();
  let sitting = -1;
  let lastAt = -Infinity;
  let found = new Map<string, string>();
  for (const one of [...heard].sort(byTime)) {
    const at = one.observedAt.getTime();
    const key = `${informantOf(one)} ${pointKey(one)}`;
    const before = found.get(key) ?? one.outcome;
    const isOther = one.saidByKind === 'technician' && before !== one.outcome;
    if (isOther || at - lastAt > SAME_SITTING_MINUTES * 60_000) {
      sitting++;
      found = new Map();
    }
    found.set(key, one.outcome);
    lastAt = at;
    sittings.set(one.id, sitting);
  }
  return sittings;
}

/** Oldest first; what was told at once, in an order that is always the same. */
export function byTime(a: Heard, b: Heard): number {
  return a.observedAt.getTime() - b.observedAt.getTime() || (a.id < b.id ? -1 : 1);
}
