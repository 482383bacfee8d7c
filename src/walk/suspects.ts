import { knownOf, PreparedWalk, WalkState } from './prepared-walk.js';
import { WalkProblem } from './walk-problem.js';

export interface WalkSuspect {
  place: number;
  spot: number;
  /** Opened before and looked sound: it is made anew. */
  isOpened: boolean;
  /** To open it and look, or to make it anew. */
  minutes: number;
  /** More, if it is found at fault. */
  mendMinutes: number;
  /** That it is at fault, alone or with others. */
  chance: number;
  /** That it is at fault and opening it would not show it. */
  missedChance: number;
}

/** Every place that can be at fault, by ascending number. */
export function suspectsOf(prepared: PreparedWalk, state: WalkState): readonly WalkSuspect[] {
  const known = knownOf(prepared, state);
  known.suspects ??= listSuspects(prepared, state);
  return known.suspects;
}

function listSuspects({ problem, sets, missed }: PreparedWalk, state: WalkState): WalkSuspect[] {
  const known: (WalkSuspect | undefined)[] = new Array<undefined>(problem.places.length);
  for (let i = 0; i < state.sets.length; i++) {
    const set = state.sets[i] ?? 0;
    const chance = state.chances[i] ?? 0;
    for (const place of sets[set] ?? []) {
      const suspect = (known[place] ??= untouched(problem, state, place));
      suspect.chance += chance;
      if (!suspect.isOpened) suspect.missedChance += chance * (missed[set]?.[place] ?? 0);
    }
  }
  return known.filter((suspect) => suspect !== undefined);
}

function untouched({ places }: WalkProblem, state: WalkState, place: number): WalkSuspect {
  const { spot = 0, openMinutes = 0, mendMinutes = 0 } = places[place] ?? {};
  const isOpened = state.opened.includes(place);
  return {
    place,
    spot,
    isOpened,
    minutes: isOpened ? openMinutes + mendMinutes : openMinutes,
    mendMinutes: isOpened ? 0 : mendMinutes,
    chance: 0,
    missedChance: 0,
  };
}
