import { describe, expect, it } from '@jest/globals';
import { normaliseEmail, personalWords } from './email.js';

describe('normaliseEmail', () => {
  it('makes one of the ways to write an address', () => {
    expect(normaliseEmail(' Ilvo.Marsh@Example.ORG ')).toBe('ilvo.marsh@example.org');
  });
});

describe('personalWords', () => {
  it('takes names and e-mails apart', () => {
    expect(personalWords('Ilvo Marsh', 'i.marsh@fenmoor.example')).toEqual([
      'Ilvo',
      'Marsh',
      'i',
      'marsh',
      'fenmoor',
      'example',
    ]);
  });
});
