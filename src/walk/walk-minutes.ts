import { WalkError } from './walk-error.js';

/** Where one can stand. Positions are used if both spots have one, else the metres of cable. */
export interface WalkSpot {
  floor: number;
  /** To get in: keys, a lesson to wait for. Paid each time one comes from elsewhere. */
  accessMinutes: number;
  position?: { eastMetres: number; northMetres: number };
}

export interface Pace {
  metresPerMinute: number;
  minutesPerFloor: number;
}

/**
 * Minutes from every spot to every other, access of the other included; 0 on the diagonal.
 * `cableMetres` gives the length of cable between two spots. Throws {@link WalkError}.
 */
export function walkMinutes(
  spots: readonly WalkSpot[],
  pace: Pace,
  cableMetres: (from: number, to: number) => number,
): number[][] {
  if (!(pace.metresPerMinute > 0)) throw new WalkError('metresPerMinute', 'must be above 0');
  return spots.map((from, i) =>
    spots.map((to, j) => {
      if (i === j) return 0;
      const metres = metresBetween(from, to) ?? cableMetres(i, j);
      const floors = Math.abs(from.floor - to.floor);
      const minutes =
        metres / pace.metresPerMinute + floors * pace.minutesPerFloor + to.accessMinutes;
      if (!(minutes >= 0 && Number.isFinite(minutes))) {
        throw new WalkError(`spots/${j}`, `cannot be ${minutes} minutes from spot ${i}`);
      }
      return minutes;
    }),
  );
}

function metresBetween(from: WalkSpot, to: WalkSpot): number | null {
  if (!from.position || !to.position) return null;
  const eastMetres = to.position.eastMetres - from.position.eastMetres;
  const northMetres = to.position.northMetres - from.position.northMetres;
  return Math.sqrt(eastMetres * eastMetres + northMetres * northMetres);
}
