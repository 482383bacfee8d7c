import { describe, expect, it } from '@jest/globals';
import type { WorldFault } from '../locator/worlds/index.js';
import { neededWorlds, reportedPoints } from './walk-needed.js';
import { rememberedReader } from './walk-reader.js';

const nodes = ['A1', 'A2', 'A3'].map((id) => ({ id, kind: 'station' as const, cableMetres: 10 }));
const read = rememberedReader({ trunks: [{ id: 'A', nodes }], exposureDays: 180 });
const span = (from: string | null, to: string, mode: string): WorldFault => {
  return { place: { kind: 'span', trunk: 'A', from, to }, component: 'junction-in', mode };
};
const station = (node: string, mode: string): WorldFault => {
  return { place: { kind: 'station', trunk: 'A', node }, component: 'station', mode };
};
const points = reportedPoints({
  observations: [
    { trunk: 'A', node: 'A3', function: 'bell', outcome: 'fails' },
    { trunk: 'A', node: 'A1', function: 'bell', outcome: 'works' },
    { trunk: 'A', node: 'A2', function: 'bell', outcome: 'fails', disconnectedBelow: 'A1' },
  ],
});
const needed = (...faults: WorldFault[]) =>
  neededWorlds([{ faults, probability: 1 }], read, points)[0]?.faults;

describe('what must be mended until all that was reported works', () => {
  it('is what takes a reported function away, with the trunk whole', () => {
    expect(points).toHaveLength(1);
    const parted = span('A2', 'A3', 'parted');
    expect(needed(parted, station('A1', 'dead'))).toEqual([parted]);
    expect(needed(station('A2', 'dead'))).toEqual([]);
  });

  it('is also what an open hides, and what is hidden from one room by another fault', () => {
    const open = span(null, 'A1', 'open-supply');
    const short = span('A1', 'A2', 'short-supply');
    expect(needed(open, short)).toEqual([open, short]);
    const dead = station('A3', 'dead');
    expect(needed(open, dead)).toEqual([open, dead]);
  });
});
