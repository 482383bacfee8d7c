import { ElectricalError } from './electrical-error.js';

/** Returns `value` if it is finite and ≥ 0, else throws an {@link ElectricalError} naming `field`. */
export function requireNonNegative(field: string, value: number): number {
  if (!Number.isFinite(value) || value < 0) {
    throw new ElectricalError('invalid', field, `must be a number not below 0, is ${value}`);
  }
  return value;
}

/** Returns `value` if it is finite and > 0, else throws an {@link ElectricalError} naming `field`. */
export function requirePositive(field: string, value: number): number {
  if (!Number.isFinite(value) || value <= 0) {
    throw new ElectricalError('invalid', field, `must be a number above 0, is ${value}`);
  }
  return value;
}
