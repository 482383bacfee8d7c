import { describe, expect, it } from '@jest/globals';
import { placeInWords, stretchInWords } from './place-in-words.js';

const name = (_trunk: string, node: string) => `Room ${node}`;

describe('placeInWords', () => {
  it('names every kind of place by its rooms', () => {
    expect(placeInWords({ kind: 'span', trunk: 'A', from: '12', to: '13' }, name)).toBe(
      'between Room 12 and Room 13 on trunk A',
    );
    expect(placeInWords({ kind: 'span', trunk: 'A', from: null, to: '1' }, name)).toBe(
      'between the head-end and Room 1 on trunk A',
    );
    expect(placeInWords({ kind: 'station', trunk: 'A', node: '3' }, name)).toBe(
      'the station in Room 3 on trunk A',
    );
    expect(placeInWords({ kind: 'port', trunk: 'B' }, name)).toBe(
      'the head-end’s output for trunk B',
    );
    expect(placeInWords({ kind: 'head-end' }, name)).toBe('the head-end');
  });
});

describe('stretchInWords', () => {
  it('names its ends and counts its spans', () => {
    const spans = ['1', '2'].map((to) => ({ from: null, to, share: 0.5 }));
    const stretch = { trunk: 'A', from: null, to: '2', probability: 0.8, spans };
    expect(stretchInWords(stretch, name)).toBe(
      'between the head-end and Room 2 on trunk A, 2 spans',
    );
  });
});
