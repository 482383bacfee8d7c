import { describe, expect, it } from '@jest/globals';
import { guardFormula, unguardFormula } from './formula-guard.js';

describe('text that a spreadsheet would take for a formula', () => {
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1+1', '\r=1+1', "'=1+1", "''\t1"])(
    'has an apostrophe before it, which can be taken off again: %j',
    (text) => {
      expect(guardFormula(text)).toBe(`'${text}`);
      expect(unguardFormula(guardFormula(text))).toBe(text);
    },
  );

  it.each(['', 'Room 1', "'Quoted'", 'a=1', '1-2', ' =1', "'tis"])(
    'is nothing else: %j',
    (text) => {
      expect(guardFormula(text)).toBe(text);
      expect(unguardFormula(text)).toBe(text);
    },
  );
});
