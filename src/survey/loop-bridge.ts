import {
  ElectricalError,
  requireNonNegative,
  requirePositive,
} from '../locator/electrical/index.js';

/**
 * Murray's loop test: the faulty core and a sound one of equal make, joined at the far end, form
 * two arms of the bridge. At balance the fault is Q/(P + Q) of the loop from the test end, Q being
 * the ratio arm next to the faulty core; a contact resistance at the fault has no effect.
 * `loopMetres` is both cores together. (Mehta, Principles of Power System, 4th ed., ch. 11.)
 */
export function murrayMetres(ohmsP: number, ohmsQ: number, loopMetres: number): number {
  requireNonNegative('ohmsP', ohmsP);
  requirePositive('ohmsQ', ohmsQ);
  return (ohmsQ / (ohmsP + ohmsQ)) * requirePositive('loopMetres', loopMetres);
}

/**
 * Varley's loop test: fixed ratio arms P and Q, and an adjustable S in series with the faulty core
 * balances it against the sound one: P (X + S) = Q (loop - X). Returns X, the ohms of the faulty
 * core up to the fault; with equal arms (loop - S)/2. (Mehta, ch. 11.)
 * Throws {@link ElectricalError} if S is more than any fault on the loop would need.
 */
export function varleyOhms(ohmsP: number, ohmsQ: number, ohmsS: number, loopOhms: number): number {
  requirePositive('ohmsP', ohmsP);
  requirePositive('ohmsQ', ohmsQ);
  requireNonNegative('ohmsS', ohmsS);
  requirePositive('loopOhms', loopOhms);
  const ohms = (ohmsQ * loopOhms - ohmsP * ohmsS) / (ohmsP + ohmsQ);
  if (ohms < 0) {
    throw new ElectricalError('invalid', 'ohmsS', `${ohmsS} ohm balances no fault on this loop`);
  }
  return ohms;
}
