import type { PreparedWalk, WalkAction, WalkState } from '#app/walk/index.js';
import { takeAction } from '#app/walk/index.js';

/**
 * A habit to compare with: make the check that tells most per minute until some place is suspect
 * with `confidence`, then open the most suspect place.
 */
export function testUntilConfident(confidence: number) {
  return (prepared: PreparedWalk, state: WalkState): WalkAction => {
    const suspicion = new Map<number, number>();
    state.sets.forEach((set, i) => {
      for (const place of prepared.sets[set]!) {
        suspicion.set(place, (suspicion.get(place) ?? 0) + state.chances[i]!);
      }
    });
    const [likeliest, chance] = [...suspicion].reduce((a, b) => (b[1] > a[1] ? b : a));
    if (chance >= confidence) return { kind: 'open', place: likeliest };
    let best: WalkAction = { kind: 'open', place: likeliest };
    let bestRate = 1e-9;
    prepared.problem.checks.forEach((_, check) => {
      if (state.used.includes(check)) return;
      const taken = takeAction(prepared, state, { kind: 'check', check });
      const after = taken.branches.reduce(
        (bits, { probability, state: next }) => bits + probability * entropy(next!.chances),
        0,
      );
      const rate = (entropy(state.chances) - after) / taken.minutes;
      if (rate > bestRate) {
        bestRate = rate;
        best = { kind: 'check', check };
      }
    });
    return best;
  };
}

const entropy = (chances: readonly number[]) =>
  chances.reduce((bits, p) => bits - p * Math.log2(p), 0);
