import { describe, expect, it } from '@jest/globals';
import { inCableOrder, redrawn } from './redrawn.js';

const node = (code: string, fedFrom: string | null, room = `Room ${code}`, cableMetres = 10) => {
  return { node: code, fedFrom, room, cableMetres, isLengthGuessed: false, cableType: null };
};
const LINE = [
  node('A1', null),
  node('A2', 'A1', 'Hall', 22),
  node('A3', 'A2', 'Gate', 33),
  node('A4', 'A3'),
  node('A5', 'A4'),
];
const laid = (nodes: ReturnType<typeof redrawn>) =>
  nodes?.map((one) => `${one.node}<${one.fedFrom}${one.isLengthGuessed ? '?' : ''}`);

describe('redrawn', () => {
  it('hangs a run from a tee at the node before it', () => {
    const branch = { kind: 'branch' as const, from: 'A2', to: 'A3' };
    expect(laid(redrawn(LINE, branch))).toEqual(['A1<null', 'A2<A1', 'A3<A2', 'A4<A1?', 'A5<A4']);
  });

  it('lays a run behind the end of its stretch, in cable order', () => {
    const end = { kind: 'end' as const, from: 'A2', to: 'A3' };
    expect(laid(redrawn(LINE, end))).toEqual(['A1<null', 'A4<A1?', 'A5<A4', 'A2<A5?', 'A3<A2']);
    // Not behind what hangs from a tee at its end.
    const tee = [...LINE, node('A6', 'A5'), node('B1', 'A4')];
    expect(laid(redrawn(tee, end))).toEqual([
      ...['A1<null', 'A4<A1?', 'A2<A4?', 'A3<A2', 'A5<A4', 'A6<A5', 'B1<A4'],
    ]);
  });

  it('gives two neighbours each other’s names, and leaves the cable where it is', () => {
    const swap = redrawn(LINE, { kind: 'swapped', from: 'A2', to: 'A3' });
    expect(laid(swap)).toEqual(['A1<null', 'A3<A1', 'A2<A3', 'A4<A2', 'A5<A4']);
    expect(swap?.slice(1, 3)).toMatchObject([
      { room: 'Gate', cableMetres: 22 },
      { room: 'Hall', cableMetres: 33 },
    ]);
  });

  it('is nothing where there is no such run', () => {
    expect(redrawn(LINE, { kind: 'branch', from: 'A4', to: 'A3' })).toBeUndefined();
    expect(redrawn(LINE, { kind: 'branch', from: 'A4', to: 'A5' })).toBeUndefined();
    expect(redrawn(LINE, { kind: 'swapped', from: 'A4', to: 'Z' })).toBeUndefined();
  });
});

describe('inCableOrder', () => {
  it('loses nothing, not even what is fed in a circle', () => {
    const circle = [node('B', 'C'), node('C', 'B'), node('A', null)];
    expect(inCableOrder(circle).map((one) => one.node)).toEqual(['A', 'B', 'C']);
  });
});
