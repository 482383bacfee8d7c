import { ElectricalError } from '../locator/electrical/index.js';

/** Annealed copper at 20 °C: 1/58 ohm·mm²/m. */
const COPPER_OHM_SQUARE_MILLIMETRES_PER_METRE = 1 / 58;

/**
 * Diameter in mm of a solid wire of gauge n by ASTM B258, d = 0.127 mm · 92^((36 - n)/39);
 * 0 is 1/0, -1 is 2/0, -3 is 4/0. Throws {@link ElectricalError} outside 4/0 to 40.
 */
export function gaugeDiameterMillimetres(gauge: number): number {
  if (!Number.isInteger(gauge) || gauge < -3 || gauge > 40) {
    throw new ElectricalError('invalid', 'gauge', `must be a whole number -3 to 40, is ${gauge}`);
  }
  return 0.127 * 92 ** ((36 - gauge) / 39);
}

/** Nominal ohm/km at 20 °C of a solid copper wire of gauge n. */
export function gaugeOhmsPerKm(gauge: number): number {
  const squareMillimetres = (Math.PI / 4) * gaugeDiameterMillimetres(gauge) ** 2;
  return (1000 * COPPER_OHM_SQUARE_MILLIMETRES_PER_METRE) / squareMillimetres;
}
