import { informationBits } from './information-bits.js';
import { PreparedWalk, WalkState } from './prepared-walk.js';
import { WalkAction } from './walk-problem.js';

/** An action with what it tells for the minutes of walking there and doing it. */
export interface WeighedAction {
  action: WalkAction;
  minutes: number;
  bits: number;
}

const NO_NEWS_BITS = 1e-12;
/** An action that costs nothing is worth doing for any news. */
const LEAST_MINUTES = 1e-9;

/**
 * Every opening of a suspect place and every check that can tell something, most bits per minute
 * first; ties with openings first, then by index.
 */
export function possibleActions(prepared: PreparedWalk, state: WalkState): WeighedAction[] {
  const { places, checks, walkMinutes } = prepared.problem;
  const walked = (to: number) => walkMinutes[state.spot]?.[to] ?? 0;
  const suspects = [...new Set(state.sets.flatMap((set) => prepared.sets[set] ?? []))];
  const weighed: WeighedAction[] = [];
  for (const place of suspects.sort((a, b) => a - b)) {
    const { spot = state.spot, openMinutes = 0 } = places[place] ?? {};
    const action: WalkAction = { kind: 'open', place };
    const bits = informationBits(prepared, state, action);
    weighed.push({ action, minutes: walked(spot) + openMinutes, bits });
  }
  checks.forEach(({ spot, minutes }, check) => {
    if (state.used.includes(check)) return;
    const action: WalkAction = { kind: 'check', check };
    const bits = informationBits(prepared, state, action);
    if (bits > NO_NEWS_BITS) weighed.push({ action, minutes: walked(spot) + minutes, bits });
  });
  return weighed.sort((a, b) => bitsPerMinute(b) - bitsPerMinute(a));
}

function bitsPerMinute({ bits, minutes }: WeighedAction): number {
  return bits / Math.max(minutes, LEAST_MINUTES);
}
