import { type Heard, informantOf, saidKey } from '../reports/observation.js';

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
  for (const [at, told] of toldAtOnce(heard)) {
    const isOther = told.some(
      (one) =>
        one.saidByKind === 'technician' && (found.get(keyOf(one)) ?? one.outcome) !== one.outcome,
    );
    if (isOther || at - lastAt > SAME_SITTING_MINUTES * 60_000) {
      sitting++;
      found = new Map();
    }
    lastAt = at;
    for (const one of told) {
      found.set(keyOf(one), one.outcome);
      sittings.set(one.id, sitting);
    }
  }
  return sittings;
}

/** By the instant, earliest first: a report or a walk test is one. */
function toldAtOnce(heard: readonly Heard[]): Map<number, Heard[]> {
  const instants = new Map<number, Heard[]>();
  for (const one of [...heard].sort(byTime)) {
    const at = one.observedAt.getTime();
    const told = instants.get(at);
    if (told === undefined) instants.set(at, [one]);
    else told.push(one);
  }
  return instants;
}

function keyOf(one: Heard): string {
  return `${informantOf(one)} ${saidKey(one)}`;
}

/** Oldest first; what was told at once, in an order that is always the same. */
export function byTime(a: Heard, b: Heard): number {
  return a.observedAt.getTime() - b.observedAt.getTime() || (a.id < b.id ? -1 : 1);
}
