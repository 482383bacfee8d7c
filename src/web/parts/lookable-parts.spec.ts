import { describe, expect, it } from '@jest/globals';
import { wordsIn } from '#app/words/index.js';
import { partInWords } from './lookable-parts.js';

describe('a part as it is called', () => {
  const called = {
    words: wordsIn('en'),
    settings: {} as Parameters<typeof partInWords>[1]['settings'],
  };
  const atHeadEnd = (part: string, group: string | null = null) =>
    partInWords(
      { place: { kind: 'head-end' }, component: 'head-end', part, group },
      called,
      (_trunk, node) => node,
    );

  it('is the head-end by itself where nobody knows what of it', () => {
    expect(atHeadEnd('head-end')).toBe('the head-end');
    expect(atHeadEnd('power')).toBe('the power of the head-end');
  });
});
