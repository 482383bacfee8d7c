import { WalkError } from './walk-error.js';
import { WalkProblem } from './walk-problem.js';

const ROUNDING = 1e-6;

/** Throws {@link WalkError} with the path of the first figure that cannot be. */
export function checkWalkProblem(problem: WalkProblem): void {
  const { walkMinutes, startSpot, places, checks, worlds } = problem;
  walkMinutes.forEach((row, i) => {
    if (row.length !== walkMinutes.length) fail(`walkMinutes/${i}`, 'must name every spot');
    row.forEach((minutes, j) => requireMinutes(`walkMinutes/${i}/${j}`, minutes));
  });
  const requireSpot = (field: string, spot: number) => {
    if (walkMinutes[spot] === undefined) fail(field, `there is no spot ${spot}`);
  };
  requireSpot('startSpot', startSpot);
  places.forEach((place, i) => {
    requireSpot(`places/${i}/spot`, place.spot);
    requireMinutes(`places/${i}/openMinutes`, place.openMinutes);
    requireMinutes(`places/${i}/mendMinutes`, place.mendMinutes);
    requireChance(`places/${i}/falseChance`, place.falseChance ?? 0);
    if (place.check !== undefined && checks[place.check] === undefined) {
      fail(`places/${i}/check`, `there is no check ${place.check}`);
    }
  });
  checks.forEach((check, i) => {
    requireSpot(`checks/${i}/spot`, check.spot);
    requireMinutes(`checks/${i}/minutes`, check.minutes);
  });
  worlds.forEach(({ faults, kinds, probability }, i) => {
    if (kinds && kinds.length !== faults.length)
      fail(`worlds/${i}/kinds`, 'must name one per place');
    if (!(probability >= 0 && probability <= 1 + ROUNDING)) {
      fail(`worlds/${i}/probability`, `must be from 0 to 1, is ${probability}`);
    }
    if (faults.length === 0) fail(`worlds/${i}/faults`, 'must name a place');
    faults.forEach((place, k) => {
      if (places[place] === undefined) fail(`worlds/${i}/faults`, `there is no place ${place}`);
      if (k > 0 && place <= (faults[k - 1] ?? -1)) fail(`worlds/${i}/faults`, 'must ascend');
      const missed = places[place]?.missedChance?.(kinds?.[k] ?? 0) ?? 0;
      requireChance(`places/${place}/missedChance`, missed);
    });
  });
  const total = worlds.reduce((sum, { probability }) => sum + probability, 0);
  if (!(Math.abs(total - 1) <= ROUNDING)) fail('worlds', `the chances sum to ${total}, not 1`);
}

function requireMinutes(field: string, minutes: number): void {
  if (!(minutes >= 0 && Number.isFinite(minutes))) fail(field, `cannot be ${minutes} minutes`);
}

function requireChance(field: string, chance: number): void {
  if (!(chance >= 0 && chance <= 1)) fail(field, `${chance} is no chance`);
}

function fail(field: string, reason: string): never {
  throw new WalkError(field, reason);
}
