import { describe, expect, it } from '@jest/globals';

import { classOfTrouble, type StationPoint } from './class-of-trouble.js';

const points = (trunk: string, ...nodes: number[]): StationPoint[] =>
  nodes.map((node) => ({ trunk, node: `${trunk}${node}` }));

const STATIONS = [...points('A', 1, 2, 3), ...points('B', 1, 2)];
const NOTHING = { stations: STATIONS, silent: [], heard: [], behindLikeliest: [] };

describe('the class of a trouble', () => {
  it('goes by the rooms that were said to be silent', () => {
    const classOf = (silent: StationPoint[]) => classOfTrouble({ ...NOTHING, silent });
    expect(classOf(points('A', 2))).toBe('one-room');
    expect(classOf(points('A', 2, 2))).toBe('one-room');
    expect(classOf(points('A', 2, 3))).toBe('several-rooms');
    expect(classOf([...points('A', 2), ...points('B', 1)])).toBe('several-rooms');
    expect(classOf(points('B', 1, 2))).toBe('whole-trunk');
    expect(classOf(STATIONS)).toBe('whole-site');
  });

  it('goes by what lies behind the likeliest place too, but not by what was heard', () => {
    const silent = points('A', 1);
    const behindLikeliest = points('A', 1, 2, 3);
    expect(classOfTrouble({ ...NOTHING, silent, behindLikeliest })).toBe('whole-trunk');
    const heard = points('A', 3);
    expect(classOfTrouble({ ...NOTHING, silent, behindLikeliest, heard })).toBe('several-rooms');
    expect(classOfTrouble({ ...NOTHING, silent, behindLikeliest: STATIONS })).toBe('whole-trunk');
    const both = [...silent, ...points('B', 2)];
    expect(classOfTrouble({ ...NOTHING, silent: both, behindLikeliest: STATIONS })).toBe(
      'whole-site',
    );
  });

  it('is of the whole site where there is one trunk, and of a room where there is one', () => {
    const stations = points('A', 1, 2);
    expect(classOfTrouble({ ...NOTHING, stations, silent: stations })).toBe('whole-site');
    const one = points('A', 1);
    expect(classOfTrouble({ ...NOTHING, stations: one, silent: one })).toBe('one-room');
  });
});
