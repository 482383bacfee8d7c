import { describe, expect, it } from '@jest/globals';

import { findExcess } from './json-bounds.js';

const BOUNDS = { depth: 4, fieldsOfOne: 3, elementsOfOne: 5, values: 20 };

const excessOf = (text: string) => findExcess(Buffer.from(text), BOUNDS);
const list = (length: number) => `[${Array.from({ length }, () => '0').join()}]`;
const nested = (depth: number) => '['.repeat(depth) + ']'.repeat(depth);

describe('the bounds of a JSON text', () => {
  it('let through what is just within each', () => {
    expect(excessOf(nested(4))).toBeUndefined();
    expect(excessOf(list(5))).toBeUndefined();
    expect(excessOf('{"a":1,"b":2,"c":3}')).toBeUndefined();
    expect(excessOf(`[${list(5)},${list(5)},${list(4)}]`)).toBeUndefined();
  });

  it('name what is one beyond, and far beyond', () => {
    for (const depth of [5, 100_000]) {
      expect(excessOf(nested(depth))).toBe('is nested more than 4 levels deep');
      expect(excessOf('{"a":'.repeat(depth))).toBe('is nested more than 4 levels deep');
    }
    for (const length of [6, 100_000]) {
      expect(excessOf(list(length))).toBe('has a list of more than 5 elements');
    }
    expect(excessOf('{"a":1,"b":2,"c":3,"d":4}')).toBe('has an object of more than 3 fields');
    expect(excessOf(`[${list(5)},${list(5)},${list(5)},${list(5)}]`)).toBe(
      'has more than 20 fields and elements',
    );
  });

  it('count nothing within texts, and see where those end', () => {
    expect(excessOf('["[[[[[[{{{{,,,,,,,,"]')).toBeUndefined();
    expect(excessOf(String.raw`["\"[[[[[[\\", "\\\\", "\\\"[[[[[["]`)).toBeUndefined();
    expect(excessOf(String.raw`["\\",[[[[`)).toBe('is nested more than 4 levels deep');
  });

  it('end with what is no JSON', () => {
    for (const text of ['', '"', '"\\', ']]]]', '}{]', ',,,', '"a\\"']) {
      expect(excessOf(text)).toBeUndefined();
    }
    expect(excessOf(',,,,,,'.repeat(9))).toBe('has a list of more than 5 elements');
  });
});
