import { describe, expect, it } from '@jest/globals';
import { coreResistance, loopOhmsPerMetreOf } from './core-resistance.js';

describe('resistance of a core', () => {
  it('carries a maximum as such', () => {
    const conductor = { kind: 'iec-60228', squareMillimetres: 1, conductorClass: 2 } as const;
    expect(coreResistance(conductor)).toEqual({ ohmsPerKmAt20: 18.1, figure: 'maximum' });
  });

  it('carries a gauge as nominal', () => {
    const core = coreResistance({ kind: 'awg', gauge: 18 });
    expect(core.figure).toBe('nominal');
    expect(core.ohmsPerKmAt20).toBeCloseTo(20.95, 2); // 6.385 ohm/1000 ft (ASTM B258)
  });

  it('brings a measured figure to 20 °C and back', () => {
    const core = coreResistance({ kind: 'measured', ohmsPerKm: 19, celsius: 35 });
    expect(core.figure).toBe('measured');
    expect(core.ohmsPerKmAt20).toBeLessThan(19);
    expect(loopOhmsPerMetreOf(core, 35)).toBeCloseTo(0.038, 15);
  });

  it('doubles for go and return: 36.2 ohm/km loop of 1.0 mm²', () => {
    expect(loopOhmsPerMetreOf({ ohmsPerKmAt20: 18.1, figure: 'maximum' }, 20)).toBe(0.0362);
  });

  it('refuses a measured figure that cannot be', () => {
    const measured = { kind: 'measured', ohmsPerKm: 0, celsius: 20 } as const;
    expect(() => coreResistance(measured)).toThrow('ohmsPerKm: must be a number above 0');
  });
});
