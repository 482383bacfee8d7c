import { describe, expect, it } from '@jest/globals';
import type { Place } from '../locator/index.js';
import type { DrawnRecord } from '../sites/drawing.js';
import { roomsBehind } from './rooms-behind.js';

const station = (node: string, fedFrom: string | null) => ({
  node,
  kind: 'station' as const,
  fedFrom,
  cableMetres: 10,
  room: `Room ${node}`,
});
const drawing: DrawnRecord = {
  trunks: [
    {
      trunk: 'A',
      nodes: [
        station('1', null),
        { ...station('T', '1'), kind: 'junction-box', room: null },
        station('2', 'T'),
        station('3', 'T'),
        station('4', '3'),
      ],
    },
    { trunk: 'B', nodes: [station('1', null)] },
  ],
};
const behind = (place: Place) => roomsBehind(place, drawing).map(({ trunk, node }) => trunk + node);

describe('roomsBehind', () => {
  it('finds all that a place feeds, and no junction box', () => {
    expect(behind({ kind: 'span', trunk: 'A', from: '1', to: 'T' })).toEqual(['A2', 'A3', 'A4']);
    expect(behind({ kind: 'span', trunk: 'A', from: 'T', to: '3' })).toEqual(['A3', 'A4']);
    expect(behind({ kind: 'station', trunk: 'A', node: '3' })).toEqual(['A3']);
    expect(behind({ kind: 'port', trunk: 'A' })).toEqual(['A1', 'A2', 'A3', 'A4']);
    expect(behind({ kind: 'head-end' })).toEqual(['A1', 'A2', 'A3', 'A4', 'B1']);
  });
});
