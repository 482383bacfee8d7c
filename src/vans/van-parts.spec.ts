import { describe, expect, it } from '@jest/globals';
import { isInVan, secondTripChance } from './van-parts.js';

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
});
