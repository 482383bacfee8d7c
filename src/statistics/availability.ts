import { requireWithin } from './statistics-error.js';

/** MTBF/(MTBF + MTTR), both in hours (usual form; IEC 60050-192 not opened). */
export function availability(mtbfHours: number, hoursToRestore: number): number {
  requireWithin('mtbfHours', mtbfHours, Number.MIN_VALUE, Infinity);
  requireWithin('hoursToRestore', hoursToRestore, 0, Infinity);
  return mtbfHours / (mtbfHours + hoursToRestore);
}
