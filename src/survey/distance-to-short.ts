import { CoreResistance, loopOhmsPerMetreOf } from './core-resistance.js';
import { ElectricalError, requireNonNegative } from '../locator/electrical/index.js';

/** A loop resistance measured from the head-end; uncertainties are standard ones. */
export interface LoopReading {
  loopOhms: number;
  uncertaintyOhms: number;
  /** Of the short itself and the test leads. */
  contactOhms: number;
  uncertaintyContactOhms: number;
  celsius: number;
  uncertaintyCelsius: number;
  /** Standard, of the core's ohm/km, as a share: of the measurement, or of the make. */
  uncertaintyCoreShare: number;
}

export interface DistanceToShort {
  /** Along the cable, with the core's figure as it is. */
  metres: number;
  uncertaintyMetres: number;
  /** Covers about 95 % (two standard uncertainties), not below 0. */
  lowMetres: number;
  highMetres: number;
  /** The core's figure is a maximum: `metres` comes out short, `highMetres` allows for it. */
  isBiasedShort: boolean;
}

const COVERAGE_FACTOR = 2;

/**
 * The least that a sound core has of its class's maximum: makers draw to the maximum less a
 * margin of a few per cent (common practice, no source).
 */
const LEAST_SHARE_OF_MAXIMUM = 0.9;

/** Change of copper's resistance per °C at 20 °C: 1/254.5. */
const COPPER_SHARE_PER_CELSIUS = 1 / 254.5;

/**
 * How far along the cable two cores are shorted: R = loop ohms per metre · x + contact, with the
 * uncertainties of meter, contact, core and temperature in quadrature (to first order).
 * Throws {@link ElectricalError} for a reading that is clearly below its contact, or no number.
 */
export function distanceToShort(core: CoreResistance, reading: LoopReading): DistanceToShort {
  for (const field of UNCERTAINTIES) requireNonNegative(field, reading[field]);
  requireNonNegative('loopOhms', reading.loopOhms);
  requireNonNegative('contactOhms', reading.contactOhms);
  const ohmsPerMetre = loopOhmsPerMetreOf(core, reading.celsius);
  const cableOhms = reading.loopOhms - reading.contactOhms;
  const uncertaintyOhms = Math.hypot(reading.uncertaintyOhms, reading.uncertaintyContactOhms);
  if (cableOhms < -COVERAGE_FACTOR * uncertaintyOhms) {
    throw new ElectricalError('invalid', 'loopOhms', 'is less than the contact alone');
  }
  const metres = Math.max(0, cableOhms) / ohmsPerMetre;
  const uncertaintyMetres = Math.hypot(
    uncertaintyOhms / ohmsPerMetre,
    metres * reading.uncertaintyCoreShare,
    metres * reading.uncertaintyCelsius * COPPER_SHARE_PER_CELSIUS,
  );
  const isBiasedShort = core.figure === 'maximum';
  const farthestMetres = isBiasedShort ? metres / LEAST_SHARE_OF_MAXIMUM : metres;
  return {
    metres,
    uncertaintyMetres,
    lowMetres: Math.max(0, metres - COVERAGE_FACTOR * uncertaintyMetres),
    highMetres: farthestMetres + COVERAGE_FACTOR * uncertaintyMetres,
    isBiasedShort,
  };
}

const UNCERTAINTIES = [
  'uncertaintyOhms',
  'uncertaintyContactOhms',
  'uncertaintyCelsius',
  'uncertaintyCoreShare',
] as const;
