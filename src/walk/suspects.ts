import { PreparedWalk, WalkState } from './prepared-walk.js';

export interface WalkSuspect {
  place: number;
  spot: number;
  openMinutes: number;
  /** That it is at fault, alone or with others. */
  chance: number;
}

/** Every place that can be at fault, by ascending number. */
export function suspectsOf({ problem, sets }: PreparedWalk, state: WalkState): WalkSuspect[] {
  const chanceOf = new Map<number, number>();
  state.sets.forEach((set, i) => {
    for (const place of sets[set] ?? []) {
      chanceOf.set(place, (chanceOf.get(place) ?? 0) + (state.chances[i] ?? 0));
    }
  });
  return [...chanceOf]
    .map(([place, chance]) => {
      const { spot = 0, openMinutes = 0 } = problem.places[place] ?? {};
      return { place, spot, openMinutes, chance };
    })
    .sort((a, b) => a.place - b.place);
}
