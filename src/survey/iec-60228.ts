import { ElectricalError } from '../locator/electrical/index.js';

export type ConductorClass = 1 | 2 | 5;

/**
 * IEC 60228:2004, maximum d.c. resistance at 20 °C in ohm/km, plain annealed copper.
 * 0.5 to 4 mm² read in a reproduction; 6, 10 and 16 mm² from memory.
 */
const SOLID_OR_STRANDED: ReadonlyMap<number, number> = new Map([
  [0.5, 36.0],
  [0.75, 24.5],
  [1, 18.1],
  [1.5, 12.1],
  [2.5, 7.41],
  [4, 4.61],
  [6, 3.08],
  [10, 1.83],
  [16, 1.15],
]);

const FLEXIBLE: ReadonlyMap<number, number> = new Map([
  [0.5, 39.0],
  [0.75, 26.0],
  [1, 19.5],
  [1.5, 13.3],
  [2.5, 7.98],
  [4, 4.95],
  [6, 3.3],
  [10, 1.91],
  [16, 1.21],
]);

const TABLES = { 1: SOLID_OR_STRANDED, 2: SOLID_OR_STRANDED, 5: FLEXIBLE } as const;

/** The sizes of the table in mm², smallest first. */
export const IEC_SIZES: readonly number[] = [...SOLID_OR_STRANDED.keys()];

/** Maximum ohm/km at 20 °C. Throws {@link ElectricalError} for a size that the table does not have. */
export function maximumOhmsPerKm(
  squareMillimetres: number,
  conductorClass: ConductorClass,
): number {
  const ohmsPerKm = TABLES[conductorClass]?.get(squareMillimetres);
  if (ohmsPerKm === undefined) {
    throw new ElectricalError(
      'invalid',
      'squareMillimetres',
      `${squareMillimetres} mm² of class ${conductorClass} is not in the table (${IEC_SIZES.join(', ')})`,
    );
  }
  return ohmsPerKm;
}
