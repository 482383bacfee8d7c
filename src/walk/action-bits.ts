/* eslint-disable @typescript-eslint/no-non-null-assertion -- the walk's innermost loops, over tables of the prepared walk:
   every index is in range by construction */
import { log2 } from '../elementary/ln.js';
import { NO_FAULTS, PreparedWalk, WalkState } from './prepared-walk.js';
import { WalkAction } from './walk-problem.js';

/**
 * What an action tells about which places are at fault, in bits: entropy of its outcome less the
 * expected entropy of its outcome once the faults are known. No state is built for it, so that
 * every check of a site can be weighed.
 */
export function actionBits(prepared: PreparedWalk, state: WalkState, action: WalkAction): number {
  if (action.kind === 'check') return checkBits(prepared, state, action.check);
  prepared.work.weighed++;
  return action.kind === 'open'
    ? openBits(prepared, state, action.place)
    : remakeBits(prepared, state, action.place);
}

/** Whether all works after it, and no more: what was made anew may have been sound. */
function remakeBits(
  { problem, without }: PreparedWalk,
  { sets, chances }: WalkState,
  place: number,
): number {
  let done = 0;
  for (let i = 0; i < sets.length; i++)
    if (without[sets[i]! * problem.places.length + place] === NO_FAULTS) done += chances[i]!;
  return plogp(done) + plogp(1 - done);
}

/** Whether all works after a find is heard too, so a find tells whether it was the only fault. */
function openBits(prepared: PreparedWalk, state: WalkState, place: number): number {
  const { sets, chances } = state;
  const { check, falseChance = 0 } = prepared.problem.places[place] ?? {};
  const seen = check !== undefined && !state.used.includes(check) ? check : null;
  const table = seen === null ? null : prepared.chances[seen]!;
  const sound = new Float64Array(table?.outcomes ?? 1);
  let done = 0;
  let more = 0;
  let noiseBits = 0;
  for (let i = 0; i < sets.length; i++) {
    const set = sets[i]!;
    const chance = chances[i]!;
    const at = set * prepared.problem.places.length + place;
    const rest = prepared.without[at]!;
    const looksSound = rest === set ? 1 - falseChance : prepared.missed[at]!;
    if (rest === NO_FAULTS) done += chance * (1 - looksSound);
    else more += chance * (1 - looksSound);
    noiseBits += chance * (plogp(looksSound) + plogp(1 - looksSound));
    if (table === null) {
      sound[0]! += chance * looksSound;
      continue;
    }
    noiseBits += chance * looksSound * prepared.outcomeBits[seen!]![set]!;
    const { outcomes, values } = table;
    for (let k = 0; k < outcomes; k++)
      sound[k]! += chance * looksSound * values[set * outcomes + k]!;
  }
  let bits = plogp(done) + plogp(more) - noiseBits;
  for (let k = 0; k < sound.length; k++) bits += plogp(sound[k]!);
  return Math.max(0, bits);
}

/**
 * Σ -p log p of the outcomes, less their noise. Asked of every check of a site in every state: nothing is allocated, and
 * the first three sums, which is all that most checks have, are added up side by side.
 */
export function checkBits(prepared: PreparedWalk, state: WalkState, check: number): number {
  prepared.work.weighed++;
  const { sets, chances } = state;
  const { outcomes, values } = prepared.chances[check]!;
  const noise = prepared.outcomeBits[check]!;
  const second = outcomes > 1 ? 1 : 0;
  const third = outcomes > 2 ? 2 : 0;
  let noiseBits = 0;
  let sum0 = 0;
  let sum1 = 0;
  let sum2 = 0;
  for (let i = 0; i < sets.length; i++) {
    const set = sets[i]!;
    const chance = chances[i]!;
    const at = set * outcomes;
    noiseBits += chance * noise[set]!;
    sum0 += chance * values[at]!;
    sum1 += chance * values[at + second]!;
    sum2 += chance * values[at + third]!;
  }
  let bits = plogp(sum0) - noiseBits;
  if (outcomes > 1) bits += plogp(sum1);
  if (outcomes > 2) bits += plogp(sum2);
  for (let k = 3; k < outcomes; k++) {
    let sum = 0;
    for (let i = 0; i < sets.length; i++) sum += chances[i]! * values[sets[i]! * outcomes + k]!;
    bits += plogp(sum);
  }
  return Math.max(0, bits);
}

function plogp(probability: number): number {
  return probability > 0 ? -probability * log2(probability) : 0;
}
