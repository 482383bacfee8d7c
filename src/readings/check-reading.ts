import {
  InvalidLocateRequest,
  locate,
  type LocateRequest,
  type RequestReading,
} from '../locator/index.js';
import type { FieldError } from '../shared/domain-error.js';
import type { RecordedElectrical } from './recorded-electrical.js';

/**
 * A reading as the locator takes it on this drawing, or what it says is wrong with it. Without the supply's figures, volts
 * and ohms are held against what any site can have.
 */
export function checkReading(
  reading: object,
  trunks: LocateRequest['trunks'],
  recorded: RecordedElectrical,
): { reading: RequestReading } | { errors: FieldError[] } {
  const electrical = 'electrical' in recorded ? recorded.electrical : undefined;
  const posed = { trunks, exposureDays: 1, explanations: 0, readings: [reading], electrical };
  try {
    locate(posed);
  } catch (error) {
    if (!(error instanceof InvalidLocateRequest)) throw error;
    const wrong = error.errors.filter(
      ({ pointer }) => electrical !== undefined || pointer !== '/electrical',
    );
    const errors = wrong.map(({ pointer, reason }) => ({ field: fieldOf(pointer), reason }));
    if (errors.length > 0) return { errors };
  }
  return { reading: reading as RequestReading };
}

/** A supply that collapses is the record's, but it is this reading that cannot be compared with it. */
function fieldOf(pointer: string): string {
  return pointer.startsWith('/electrical')
    ? '/reading'
    : pointer.replace('/readings/0', '/reading');
}
