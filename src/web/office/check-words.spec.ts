import { describe, expect, it } from '@jest/globals';
import { suggestionInWords } from './check-words.js';

describe('a check in words', () => {
  it('is a sentence, and how long it takes another', () => {
    expect(
      suggestionInWords({ words: 'look whether the lamp in Room 9 is lit', minutes: 2.4 }),
    ).toBe('Look whether the lamp in Room 9 is lit. Takes about 2 minutes.');
  });

  it('never takes less than a minute', () => {
    expect(suggestionInWords({ words: 'listen to Room 9', minutes: 0.2 })).toBe(
      'Listen to Room 9. Takes about a minute.',
    );
  });
});
