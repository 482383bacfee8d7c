import { describe, expect, it } from '@jest/globals';

import { labelsOf, MOST_LABELS } from './labels-of.js';

const node = (code: string, more: object = {}) => ({
  node: code,
  kind: 'station',
  isOut: false,
  ...more,
});
const trunk = (name: string, nodes: object[]) => ({ trunk: name, nodes }) as never;

describe('labels of rooms', () => {
  it('are of stations that are there, each with the address of its room', () => {
    const box = node('J1', { kind: 'junction-box' });
    const nodes = [node('A1'), box, node('A2', { isOut: true }), node('A 3/x')];
    const { labels, more } = labelsOf(
      [trunk('A', nodes), trunk('B é', [node('B1')])],
      'https://x/at/s',
    );
    expect(labels.map(({ link }) => link)).toEqual([
      'https://x/at/s/A/A1',
      'https://x/at/s/A/A%203%2Fx',
      'https://x/at/s/B%20%C3%A9/B1',
    ]);
    expect(more).toBe(0);
  });

  it('are so many at most, and it is known how many more there are', () => {
    const nodes = Array.from({ length: MOST_LABELS + 7 }, (_, i) => node(`A${i}`));
    const { labels, more } = labelsOf([trunk('A', nodes)], '');
    expect(labels).toHaveLength(MOST_LABELS);
    expect(more).toBe(7);
  });
});
