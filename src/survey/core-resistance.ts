import { gaugeOhmsPerKm } from './american-wire-gauge.js';
import { copperFactor, requirePositive } from '../locator/electrical/index.js';
import { ConductorClass, maximumOhmsPerKm } from './iec-60228.js';

/** What is known of one core of the cable. */
export type Conductor =
  | { kind: 'iec-60228'; squareMillimetres: number; conductorClass: ConductorClass }
  | { kind: 'awg'; gauge: number }
  | { kind: 'measured'; ohmsPerKm: number; celsius: number };

/**
 * Ohm/km of one core at 20 °C, and how the figure came about: a `maximum` is what no sound cable
 * exceeds, so a distance reckoned with it comes out short; `nominal` is by geometry.
 */
export interface CoreResistance {
  ohmsPerKmAt20: number;
  figure: 'measured' | 'maximum' | 'nominal';
}

/** Throws {@link ElectricalError} for a size, gauge or figure that cannot be. */
export function coreResistance(conductor: Conductor): CoreResistance {
  switch (conductor.kind) {
    case 'iec-60228': {
      const { squareMillimetres, conductorClass } = conductor;
      return {
        ohmsPerKmAt20: maximumOhmsPerKm(squareMillimetres, conductorClass),
        figure: 'maximum',
      };
    }
    case 'awg':
      return { ohmsPerKmAt20: gaugeOhmsPerKm(conductor.gauge), figure: 'nominal' };
    case 'measured': {
      const ohmsPerKm = requirePositive('ohmsPerKm', conductor.ohmsPerKm);
      return { ohmsPerKmAt20: ohmsPerKm / copperFactor(conductor.celsius), figure: 'measured' };
    }
  }
}

/** Ohms of one metre of cable, go and return, at `celsius`. */
export function loopOhmsPerMetreOf(core: CoreResistance, celsius: number): number {
  return (2 * requirePositive('ohmsPerKmAt20', core.ohmsPerKmAt20) * copperFactor(celsius)) / 1000;
}
