import { ElectricalError } from './electrical-error.js';

/**
 * How much more copper resists at `celsius` than at 20 °C: (234.5 + t)/254.5
 * (IEC 60228 Annex B form, read in a national adoption).
 * Throws {@link ElectricalError} outside -60 to 200 °C, where no installed cable is.
 */
export function copperFactor(celsius: number): number {
  if (!(celsius >= -60 && celsius <= 200)) {
    throw new ElectricalError('invalid', 'celsius', `must be between -60 and 200, is ${celsius}`);
  }
  return (234.5 + celsius) / 254.5;
}
