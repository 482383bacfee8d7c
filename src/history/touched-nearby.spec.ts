import { describe, expect, it } from '@jest/globals';
import { componentsNear } from './touched-nearby.js';

const node = (
  code: string,
  fedFrom: string | null,
  kind: 'station' | 'junction-box' = 'station',
) => {
  return { node: code, kind, fedFrom, cableMetres: 1, room: null };
};
const DRAWING = {
  trunks: [
    {
      trunk: 'A',
      nodes: [node('1', null), node('T', '1', 'junction-box'), node('2', 'T'), node('3', 'T')],
    },
  ],
};
const near = (code: string) =>
  componentsNear(DRAWING, { trunk: 'A', node: code }).map((one) =>
    'node' in one ? `${one.component} ${one.node}` : one.component,
  );

describe('work near a node', () => {
  it('is near its unit, its terminals on both sides and the cables there, and nothing further', () => {
    expect(near('1')).toEqual([
      'junction-in 1',
      'cable 1',
      'station 1',
      'junction-out T',
      'cable T',
    ]);
    expect(near('T')).toEqual([
      'junction-in T',
      'cable T',
      'junction-out 2',
      'cable 2',
      'junction-out 3',
      'cable 3',
    ]);
    expect(near('3')).toEqual(['junction-in 3', 'cable 3', 'station 3']);
    expect(near('9')).toEqual([]);
  });
});
