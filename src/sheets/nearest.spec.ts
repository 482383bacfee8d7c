import { describe, expect, it } from '@jest/globals';
import { nearest } from './nearest.js';

describe('nearest', () => {
  const columns = ['trunk', 'node', 'cable metres', 'unit model'];

  it.each([
    ['cable meters', 'cable metres'],
    ['Trunc', 'trunk'],
    ['nodes', 'node'],
    ['unit modle', 'unit model'],
  ])('takes %s for %s', (word, meant) => {
    expect(nearest(word, columns)).toBe(meant);
  });

  it.each(['colour', 'x', ''])('takes "%s" for none of them', (word) => {
    expect(nearest(word, columns)).toBeUndefined();
  });
});
