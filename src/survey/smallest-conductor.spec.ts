import { describe, expect, it } from '@jest/globals';
import { smallestConductor } from './smallest-conductor.js';
import { SupplyTrunk } from '../locator/electrical/index.js';

const trunk = (watts: number): SupplyTrunk => ({
  sourceVolts: 24,
  sourceOhms: 0,
  loopOhmsPerMetre: 0,
  nodes: [{ parent: null, cableMetres: 100, load: { kind: 'watts', watts } }],
});

describe('the smallest conductor', () => {
  // Over R = 2 · 0.1 km · ohm/km at 20 °C, 20 W leaves V = 12 + √(144 - 20 R).
  // 0.75 mm²: R = 4.9, V = 18.78; 1.0 mm²: R = 3.62, V = 20.46.
  it('is the first of the table that leaves the minimum', () => {
    const found = smallestConductor(trunk(20), 2, 20, 20);
    expect(found?.squareMillimetres).toBe(1);
    expect(found?.marginVolts).toBeCloseTo(12 + Math.sqrt(144 - 20 * 3.62) - 20, 9);
  });

  it('is larger when warm and in class 5', () => {
    expect(smallestConductor(trunk(20), 2, 20, 20.4)?.squareMillimetres).toBe(1);
    expect(smallestConductor(trunk(20), 2, 60, 20.4)?.squareMillimetres).toBe(1.5);
    expect(smallestConductor(trunk(20), 5, 20, 20.4)?.squareMillimetres).toBe(1.5);
  });

  it('passes over sizes with which the supply collapses', () => {
    // 1.0 mm²: at most 24²/(4 · 3.62) = 39.8 W.
    expect(smallestConductor(trunk(40), 2, 20, 5)?.squareMillimetres).toBe(1.5);
  });

  it('is none when the table has nothing large enough', () => {
    expect(smallestConductor(trunk(20), 2, 20, 23.9)).toBeNull();
    expect(() => smallestConductor({ ...trunk(20), sourceOhms: -1 }, 2, 20, 20)).toThrow(
      'sourceOhms',
    );
  });
});
