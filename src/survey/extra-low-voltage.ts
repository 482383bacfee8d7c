import { requireNonNegative } from '../locator/electrical/index.js';

/**
 * Upper limits of separated extra-low voltage: 50 V a.c. r.m.s., 120 V ripple-free d.c.
 * (IEV, from IEC 61558-1; read).
 */
const LIMIT_VOLTS = { ac: 50, dc: 120 } as const;

/**
 * Whether a voltage is above what separated extra-low voltage may be, as a loudspeaker line of 70
 * or 100 V is at full power. A figure to show beside a reading, never a verdict that it is safe.
 */
export function exceedsExtraLowVoltage(volts: number, current: 'ac' | 'dc'): boolean {
  return requireNonNegative('volts', volts) > LIMIT_VOLTS[current];
}
