import { describe, expect, it } from '@jest/globals';
import { type AsBuilt, NOTHING_DRAWN } from './as-built.js';
import { KeptDrawings } from './kept-drawings.js';

const drawingOf = (nodes: number): AsBuilt => ({
  ...NOTHING_DRAWN,
  trunks: [
    {
      trunk: 'A',
      name: 'A',
      port: null,
      nodes: Array.from(
        { length: nodes },
        () => ({}) as AsBuilt['trunks'][number]['nodes'][number],
      ),
    },
  ],
});

describe('kept drawings', () => {
  it('are the ones used last, and never more nodes than the bound', () => {
    const kept = new KeptDrawings(100);
    const [one, two, three] = [drawingOf(40), drawingOf(40), drawingOf(40)];
    kept.keep('one', one);
    kept.keep('two', two);
    expect(kept.get('one')).toBe(one);
    kept.keep('three', three);
    expect(['one', 'two', 'three'].map((key) => kept.get(key))).toEqual([one, undefined, three]);
    kept.keep('huge', drawingOf(1000));
    expect(['one', 'three', 'huge'].map((key) => kept.get(key))).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});
