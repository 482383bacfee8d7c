import { describe, expect, it } from '@jest/globals';
import { solveTrunk } from './solve-trunk.js';
import { Load, SupplyTrunk } from './supply-trunk.js';

const amps = (value: number): Load => ({ kind: 'amps', amps: value });
const watts = (value: number): Load => ({ kind: 'watts', watts: value });

/** An unbranched trunk from a source without internal resistance. */
function line(sourceVolts: number, loopOhmsPerMetre: number, taps: [number, Load?][]): SupplyTrunk {
  const nodes = taps.map(([cableMetres, load], i) => ({
    parent: i === 0 ? null : i - 1,
    cableMetres,
    load,
  }));
  return { sourceVolts, sourceOhms: 0, loopOhmsPerMetre, nodes };
}

const toPrintedDigits = (volts: number[], digits: number) =>
  volts.map((v) => Number(v.toFixed(digits)));

describe('published d.c. lines (V. K. Mehta, R. Mehta, Principles of Power System, 4th ed., ch. 13)', () => {
  it('13.1 p. 313: 295.0, 291.0, 288.0, 287.6 V', () => {
    const trunk = line(300, 0.02e-3, [
      [500, amps(100)],
      [500, amps(150)],
      [600, amps(200)],
      [400, amps(50)],
    ]);
    expect(toPrintedDigits(solveTrunk(trunk).nodeVolts, 1)).toEqual([295, 291, 288, 287.6]);
  });

  it('13.3 p. 315: 566.4, 544.0 V', () => {
    const trunk = line(600, 0.28e-3, [
      [2000, amps(40)],
      [4000, amps(20)],
    ]);
    expect(toPrintedDigits(solveTrunk(trunk).nodeVolts, 1)).toEqual([566.4, 544]);
  });

  // A tap in the middle of each metre is exact at whole metres: the drop is linear between taps.
  const uniform = line(
    250,
    0.00018,
    Array.from({ length: 600 }, (_, i) => [0.5, i % 2 === 0 ? amps(0.75) : undefined]),
  );

  it('13.9 p. 319: a uniform load leaves 244.6 V at 200 m', () => {
    expect(solveTrunk(uniform).nodeVolts[399]).toBeCloseTo(244.6, 9);
  });

  it('identity: a uniform load drops I·R/2 at the far end', () => {
    const dropVolts = (0.75 * 300 * (0.00018 * 300)) / 2;
    expect(solveTrunk(uniform).nodeVolts[599]).toBeCloseTo(250 - dropVolts, 9);
  });
});

describe('a trunk', () => {
  // ngspice 39.3 (Debian), 1.0 mm², 36.2 ohm/km loop (published/values: read).
  it('agrees with ngspice on 24 V, 50/40/60/30/70 m, 120/80/150/60/90 mA', () => {
    const trunk = line(24, 0.0362, [
      [50, amps(0.12)],
      [40, amps(0.08)],
      [60, amps(0.15)],
      [30, amps(0.06)],
      [70, amps(0.09)],
    ]);
    const printed = [23.095, 22.54476, 21.89316, 21.73026, 21.5022];
    solveTrunk(trunk).nodeVolts.forEach((v, i) => expect(v).toBeCloseTo(printed[i] ?? 0, 9));
  });

  it('solves one constant power in closed form: V = (E + √(E² - 4PR))/2', () => {
    const { nodeVolts, spanAmps } = solveTrunk({
      ...line(24, 0.04, [[100, watts(20)]]),
      sourceOhms: 1,
    });
    const volts = (24 + Math.sqrt(24 ** 2 - 4 * 20 * 5)) / 2;
    expect(nodeVolts[0]).toBeCloseTo(volts, 11);
    expect((nodeVolts[0] ?? 0) * (spanAmps[0] ?? 0)).toBeCloseTo(20, 9);
  });

  it('splits at a tee, counts two first spans at the port, and drops over a bad joint', () => {
    const solution = solveTrunk({
      sourceVolts: 24,
      sourceOhms: 0.5,
      loopOhmsPerMetre: 0.1,
      nodes: [
        { parent: null, cableMetres: 10 },
        { parent: 0, cableMetres: 10, load: amps(1) },
        { parent: 0, cableMetres: 10, jointOhms: 4, load: amps(0.5) },
        { parent: null, cableMetres: 20, load: amps(0.5) },
      ],
    });
    expect(solution.portAmps).toBe(2);
    expect(solution.portVolts).toBe(23);
    expect(solution.spanAmps).toEqual([1.5, 1, 0.5, 0.5]);
    expect(solution.nodeVolts).toEqual([21.5, 20.5, 19, 22]);
  });

  it('reports the source itself where nothing draws', () => {
    expect(solveTrunk(line(24, 0.04, [[50]])).nodeVolts).toEqual([24]);
    expect(solveTrunk(line(0, 0.04, [[50]])).nodeVolts).toEqual([0]);
  });
});

describe('a supply that collapses', () => {
  const collapse = expect.objectContaining({ code: 'supply-collapses' });

  it('is an error for constant currents, naming the node', () => {
    const trunk = line(24, 0.1, [
      [100, amps(1)],
      [100, amps(1)],
    ]);
    expect(() => solveTrunk(trunk)).toThrow(
      expect.objectContaining({ code: 'supply-collapses', field: 'nodes/1' }),
    );
  });

  // The greatest power over R is E²/(4R): 24²/(4·4) = 36 W.
  it('is an error for more than E²/(4R), and none below it', () => {
    expect(() => solveTrunk(line(24, 0.04, [[100, watts(36.0001)]]))).toThrow(collapse);
    expect(solveTrunk(line(24, 0.04, [[100, watts(35.999)]])).nodeVolts[0]).toBeCloseTo(12.063, 3);
    expect(() => solveTrunk(line(0, 0.04, [[100, watts(1)]]))).toThrow(collapse);
  });
});
