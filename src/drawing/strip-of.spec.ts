import { describe, expect, it } from '@jest/globals';
import { silentRooms, stripsOf } from './strip-of.js';

describe('stripsOf', () => {
  const trunks = [
    { trunk: 'A', nodes: ['A1', 'A2', 'A3', 'A4'] },
    { trunk: 'B', nodes: ['B1'] },
  ];
  const said = [
    { trunk: 'A', node: 'A2', outcome: 'works' },
    { trunk: 'A', node: 'A3', outcome: 'works' },
    { trunk: 'A', node: 'A3', outcome: 'fails' },
    { trunk: 'A', node: 'A4', outcome: 'weak' },
    { trunk: 'B', node: 'B1', outcome: 'works' },
  ];
  const span = (trunk: string, to: string, probability: number) => ({
    place: { kind: 'span', trunk, to },
    probability,
  });

  it('has a letter for each node, the worst that was said, and the suspected spans by position', () => {
    const places = [
      span('A', 'A3', 0.6),
      span('B', 'B1', 0.2),
      { place: { kind: 'station', trunk: 'A' }, probability: 0.1 },
      span('A', 'A9', 0.1),
    ];
    expect(stripsOf({ trunks, said, places })).toEqual([
      { trunk: 'A', marks: '-hsw', suspected: [{ at: 2, chance: 0.6 }] },
    ]);
  });

  it('counts rooms, not functions', () => {
    expect(silentRooms([...said, { trunk: 'A', node: 'A3', outcome: 'fails' }])).toBe(2);
    expect(silentRooms([])).toBe(0);
  });
});
