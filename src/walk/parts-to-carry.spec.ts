import { describe, expect, it } from '@jest/globals';
import { Part, partsToCarry } from './parts-to-carry.js';

const worlds = [
  { faults: [0], probability: 0.6 },
  { faults: [1], probability: 0.3 },
  { faults: [0, 1], probability: 0.1 },
];
const part = (id: string, place: number, chance: number, carryMinutes: number): Part => {
  return { id, carryMinutes, neededChance: (f) => (f.includes(place) ? chance : 0) };
};

describe('parts to carry', () => {
  it('weighs the chance of need by what a second trip costs', () => {
    const parts = [
      part('connector', 0, 1, 1),
      part('station', 1, 0.5, 30),
      part('cable', 1, 0.1, 1),
    ];
    const { parts: chosen, secondTripChance } = partsToCarry(worlds, parts, 90);
    expect(chosen).toEqual([
      { id: 'connector', neededChance: 0.7, isCarried: true },
      { id: 'station', neededChance: expect.closeTo(0.2), isCarried: false },
      { id: 'cable', neededChance: expect.closeTo(0.04), isCarried: true },
    ]);
    expect(secondTripChance).toBeCloseTo(0.2, 12);
  });

  it('leaves a part at home when the trip is due anyway', () => {
    // Both are needed in the same worlds; together they cost more than the trip that they save.
    const parts = [part('a', 0, 1, 45), part('b', 0, 1, 45)];
    expect(partsToCarry(worlds, parts, 100).parts.map((p) => p.isCarried)).toEqual([false, false]);
  });

  it('sorts ties by id and refuses what cannot be', () => {
    const parts = [part('b', 0, 0.5, 0), part('a', 0, 0.5, 0)];
    expect(partsToCarry(worlds, parts, 10).parts.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(() => partsToCarry(worlds, [part('a', 0, 2, 1)], 10)).toThrow('parts/0/neededChance');
    expect(() => partsToCarry(worlds, [part('a', 0, 1, -1)], 10)).toThrow('parts/0/carryMinutes');
    expect(() => partsToCarry(worlds, [], Number.NaN)).toThrow('secondTripMinutes');
  });
});
