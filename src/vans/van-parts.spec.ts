import { describe, expect, it } from '@jest/globals';
import { backInVan, isInVan, leftInVan, secondTripChance, takenOut } from './van-parts.js';

const van = [
  { name: 'Connectors', quantity: 40 },
  { name: 'station unit RS-2', quantity: 1 },
  { name: '25 m of trunk cable', quantity: 1 },
  { name: 'fuse for an output', quantity: 0 },
];

describe('what is in a van', () => {
  it('is known however somebody writes it', () => {
    expect(isInVan(van, 'connectors')).toBe(true);
    expect(isInVan(van, 'station  unit RS 2')).toBe(true);
    expect(isInVan(van, 'station unit RS-3')).toBe(false);
  });

  it('is not what has been used up', () => {
    expect(isInVan(van, 'fuse for an output')).toBe(false);
  });

  it('is a piece of cable that is long enough, and of that cable', () => {
    expect(isInVan(van, '25 m of trunk cable')).toBe(true);
    expect(isInVan(van, '20 m of trunk cable')).toBe(true);
    expect(isInVan(van, '30 m of trunk cable')).toBe(false);
    expect(isInVan(van, '20 m of four-core 0.75 cable')).toBe(false);
    // Two pieces make no longer one.
    expect(isInVan([{ name: '10 m of trunk cable', quantity: 2 }], '20 m of trunk cable')).toBe(
      false,
    );
  });

  it('is less by what was used, and never less than nothing', () => {
    const used = [
      { name: 'CONNECTORS', quantity: 6 },
      { name: 'station unit RS 2', quantity: 3 },
      { name: 'fuse for an output', quantity: 1 },
      { name: 'lamp', quantity: 1 },
    ];
    expect(leftInVan(van, used).map(({ quantity }) => quantity)).toEqual([34, 0, 1, 0]);
    expect(leftInVan(van, [{ name: 'lamp', quantity: 1 }])).toBe(van);
    expect(leftInVan(van, [{ name: 'connectors', quantity: 0 }])).toBe(van);
  });

  it('loses of a cable the shortest piece that is long enough, and keeps the rest of it', () => {
    const cables = [
      { name: '50 m of trunk cable', quantity: 1 },
      { name: '25 m of trunk cable', quantity: 2 },
      { name: '15 m of Trunk cable', quantity: 1 },
      { name: '100 m of other cable', quantity: 1 },
    ];
    const cut = (name: string, quantity: number) =>
      leftInVan(cables, [{ name, quantity }]).map((part) => `${part.quantity} × ${part.name}`);
    expect(cut('20 m of trunk cable', 1)).toEqual([
      '1 × 50 m of trunk cable',
      '1 × 25 m of trunk cable',
      '1 × 15 m of Trunk cable',
      '1 × 100 m of other cable',
      '1 × 5 m of trunk cable',
    ]);
    // Both pieces of 25, then 20 of the 50; a rest of less than a metre is none.
    expect(cut('24.5 m of trunk cable', 3)).toEqual([
      '0 × 50 m of trunk cable',
      '0 × 25 m of trunk cable',
      '1 × 15 m of Trunk cable',
      '1 × 100 m of other cable',
      '1 × 25.5 m of trunk cable',
    ]);
    // The rest is a piece like others: it goes to what is there already.
    expect(cut('10 m of trunk cable', 2)).toEqual([
      '1 × 50 m of trunk cable',
      '1 × 25 m of trunk cable',
      '1 × 15 m of Trunk cable',
      '1 × 100 m of other cable',
      '1 × 5 m of Trunk cable',
    ]);
  });

  it('loses metres of a cable that it has by pieces, where the name says no length, as the phone enters them', () => {
    const cables = [
      { name: '50 m of trunk cable', quantity: 1 },
      { name: '20 m of trunk cable', quantity: 2 },
    ];
    const cut = (quantity: number) =>
      leftInVan(cables, [{ name: 'Trunk cable', quantity }]).map(
        (part) => `${part.quantity} × ${part.name}`,
      );
    expect(cut(3.5)).toEqual([
      '1 × 50 m of trunk cable',
      '1 × 20 m of trunk cable',
      '1 × 16.5 m of trunk cable',
    ]);
    // All of the 50, one of 20, and 5 of the other.
    expect(cut(75)).toEqual([
      '0 × 50 m of trunk cable',
      '0 × 20 m of trunk cable',
      '1 × 15 m of trunk cable',
    ]);
    expect(cut(100_000)).toEqual(['0 × 50 m of trunk cable', '0 × 20 m of trunk cable']);
    expect(cut(0)).toEqual(['1 × 50 m of trunk cable', '2 × 20 m of trunk cable']);
  });

  it('costs a second trip where one of what is needed together is missing, once', () => {
    const needs = [
      { parts: ['connectors'], chance: 0.5 },
      { parts: ['connectors', '30 m of trunk cable'], chance: 0.3 },
      { parts: ['power supply for the head-end'], chance: 0.1 },
      { parts: [], chance: 0.1 },
    ];
    expect(secondTripChance(van, needs)).toBeCloseTo(0.4, 12);
    expect(secondTripChance([], needs)).toBeCloseTo(0.9, 12);
    const more = [
      { name: '50 m of trunk cable', quantity: 1 },
      { name: 'power supply for the head end', quantity: 1 },
    ];
    expect(secondTripChance([...van, ...more], needs)).toBe(0);
  });

  it('is as before once what was taken out is put back, however often a piece was cut', () => {
    const cables = [
      { name: '50 m of trunk cable', quantity: 1 },
      { name: '25 m of trunk cable', quantity: 2 },
      { name: 'connectors', quantity: 3 },
    ];
    for (const used of [
      [{ name: 'Connectors', quantity: 2 }],
      [{ name: 'connectors', quantity: 9 }],
      [{ name: '24.5 m of trunk cable', quantity: 3 }],
      [{ name: 'trunk cable', quantity: 61 }],
      [
        { name: '20 m of trunk cable', quantity: 2 },
        { name: 'connectors', quantity: 1 },
      ],
    ]) {
      const left = leftInVan(cables, used);
      expect(left).not.toEqual(cables);
      expect(backInVan(left, takenOut(cables, left))).toEqual(cables);
    }
  });

  it('gets no cable back whose rest was used since; all else comes back', () => {
    const before = [
      { name: '30 m of trunk cable', quantity: 1 },
      { name: 'connectors', quantity: 6 },
    ];
    const left = leftInVan(before, [
      { name: 'connectors', quantity: 4 },
      { name: '12 m of trunk cable', quantity: 1 },
    ]);
    const later = leftInVan(left, [{ name: '18 m of trunk cable', quantity: 1 }]);
    expect(backInVan(later, takenOut(before, left))).toEqual([
      { name: '30 m of trunk cable', quantity: 0 },
      { name: 'connectors', quantity: 6 },
      { name: '18 m of trunk cable', quantity: 0 },
    ]);
  });
});
