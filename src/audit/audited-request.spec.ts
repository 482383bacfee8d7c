import { describe, expect, it } from '@jest/globals';
import { targetOf } from './audited-request.js';

describe('targetOf', () => {
  it('names what the path names and what was made, and nothing else of an answer', () => {
    const answer = { id: 'made', token: 'secret', name: 'Runa Feld' };
    expect(targetOf({ siteId: 'site' }, answer)).toEqual({ siteId: 'site', id: 'made' });
  });

  it('keeps the path’s id before the answer’s', () => {
    expect(targetOf({ id: 'path' }, { id: 'answer' })).toEqual({ id: 'path' });
  });

  it('is empty when nothing is named', () => {
    expect(targetOf(undefined, undefined)).toEqual({});
    expect(targetOf({}, 'text')).toEqual({});
  });
});
