import { describe, expect, it } from '@jest/globals';
import { refuseName } from './is-name.js';

describe('refuseName', () => {
  it('takes names of all scripts, with what joins their letters', () => {
    const names = ['Ilvo Marsh', "Siân O'Dowd-Çelik", 'क्‍ष', 'عمر', '山田', 'Ilvo 👩‍🔧'];
    expect(names.map(refuseName)).toEqual(names.map(() => null));
  });

  it('refuses what turns the writing, breaks the line or controls', () => {
    for (const mark of [
      '\u202e',
      '\u2066',
      '\u200f',
      '\u061c',
      '\n',
      '\u0007',
      '\u0085',
      '\u2028',
    ]) {
      expect(refuseName(`Ilvo${mark}Marsh`)).toBe('must not hold control or direction marks');
    }
  });

  it('refuses what leaves nothing to be seen', () => {
    for (const blank of ['', ' ', '\u00a0\u3000', '\u200b\u200d', '\u3164', '\u2800', '\u00ad']) {
      expect(refuseName(blank)).toBe('must not be blank');
    }
  });
});
