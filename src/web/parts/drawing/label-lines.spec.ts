import { describe, expect, it } from '@jest/globals';
import { labelLines } from './label-lines.js';

describe('labelLines', () => {
  it('breaks between words, and cuts what no line holds', () => {
    expect(labelLines('Room 12', 11)).toEqual(['Room 12']);
    expect(labelLines('Music practice', 11)).toEqual(['Music', 'practice']);
    expect(labelLines('Head of the lower school', 11)).toEqual(['Head of the', 'lower scho…']);
    expect(labelLines('Caretakersworkshop', 11)).toEqual(['Caretakers…']);
  });
});
