import { ln } from '../../elementary/ln.js';
import { CONFUSED_LIKELIHOOD, type ErrorRates, OUTCOMES } from '../../plan/error-rates.js';
import type { LocateRequest } from '../request/locate-request.js';
import type { WorldFault } from './probable-world.js';
import { worldReader } from './world-answers.js';

/**
 * log P(what was told while a cable was disconnected | these faults, everything else being ok); null where nothing was. Who
 * has an identity may be confused in each word by itself: nearly what is exact.
 */
export function worldDisconnections(
  request: LocateRequest,
  errors: ErrorRates,
): ((faults: readonly WorldFault[]) => number) | null {
  const told = (request.observations ?? []).filter((one) => one.disconnectedBelow !== undefined);
  if (told.length === 0) return null;
  const read = worldReader(request);
  return (faults) => {
    const world = read({ faults: [...faults] });
    return told.reduce((log, { trunk, node, function: name, outcome, informant, ...at }) => {
      const { id, kind } = informant ?? { kind: 'office' };
      const condition = world.condition(trunk, node, name, at.disconnectedBelow);
      const clear = errors[kind][condition][OUTCOMES.indexOf(outcome)] ?? 0;
      const confused = id === undefined ? 0 : errors[kind].confused;
      return log + ln((1 - confused) * clear + confused * CONFUSED_LIKELIHOOD);
    }, 0);
  };
}
