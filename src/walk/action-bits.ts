import { NO_FAULTS, PreparedWalk, WalkState } from './prepared-walk.js';
import { WalkAction } from './walk-problem.js';

/**
 * What an action tells about which places are at fault, in bits: entropy of its outcome less the
 * expected entropy of its outcome once the faults are known. No state is built for it, so that
 * every check of a site can be weighed; its loops are the walk's innermost.
 */
export function actionBits(prepared: PreparedWalk, state: WalkState, action: WalkAction): number {
  if (action.kind === 'check') return checkBits(prepared, state, action.check, null);
  const place = prepared.problem.places[action.place];
  // Whether all works afterwards is heard too, so a find tells whether it was the only fault.
  let only = 0;
  let found = 0;
  for (let i = 0; i < state.sets.length; i++) {
    const rest = prepared.without[state.sets[i] ?? 0]?.[action.place];
    if (rest === undefined) continue;
    found += state.chances[i] ?? 0;
    if (rest === NO_FAULTS) only += state.chances[i] ?? 0;
  }
  const foundBits = plogp(only) + plogp(found - only);
  const isSeen = place?.check !== undefined && !state.used.includes(place.check);
  const soundBits = isSeen
    ? checkBits(prepared, state, place.check ?? 0, action.place)
    : plogp(1 - found);
  return Math.max(0, foundBits + soundBits);
}

/** Over the sets without the place (null: all): Σ -p log p of the outcomes, less their noise. */
function checkBits(
  prepared: PreparedWalk,
  { sets, chances }: WalkState,
  check: number,
  place: number | null,
): number {
  const table = prepared.chances[check] ?? [];
  const noise = prepared.outcomeBits[check] ?? [];
  const outcomes = new Array<number>(table[0]?.length ?? 0).fill(0);
  let noiseBits = 0;
  for (let i = 0; i < sets.length; i++) {
    const set = sets[i] ?? 0;
    if (place !== null && prepared.without[set]?.[place] !== undefined) continue;
    const chance = chances[i] ?? 0;
    addScaled(outcomes, chance, table[set] ?? []);
    noiseBits += chance * (noise[set] ?? 0);
  }
  return Math.max(
    0,
    outcomes.reduce((bits, p) => bits + plogp(p), -noiseBits),
  );
}

function addScaled(sums: number[], factor: number, values: readonly number[]): void {
  for (let k = 0; k < values.length; k++) sums[k] = (sums[k] ?? 0) + factor * (values[k] ?? 0);
}

function plogp(probability: number): number {
  return probability > 0 ? -probability * Math.log2(probability) : 0;
}
