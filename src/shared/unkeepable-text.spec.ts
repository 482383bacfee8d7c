import { describe, expect, it } from '@jest/globals';

import { findUnkeepable } from './unkeepable-text.js';

describe('text that cannot be kept', () => {
  it('is found wherever it is, and named', () => {
    expect(findUnkeepable('a\0')).toEqual({
      pointer: '',
      reason: 'holds the character NUL, which cannot be kept',
    });
    expect(findUnkeepable({ a: ['fine', { 'b/c': 'x\ud800y' }] })).toEqual({
      pointer: '/a/1/b~1c',
      reason: 'holds half a character (a lone surrogate), which cannot be kept',
    });
    expect(findUnkeepable({ a: { 'b\udc00': 1 } })).toMatchObject({
      pointer: '/a',
      reason: expect.stringContaining('a field whose name holds half a character'),
    });
  });

  it('is not any other text, whole pairs included', () => {
    expect(
      findUnkeepable({ a: ['Grüße', '😀', '\u0001'], b: null, c: 7, d: true }),
    ).toBeUndefined();
  });
});
