import { describe, expect, it } from '@jest/globals';
import { toFailure } from './failure.js';

describe('toFailure', () => {
  it('keeps the words and the fields of a problem document', () => {
    const errors = [{ field: '/observations/2/node', reason: 'is not on the drawing' }];
    const failure = toFailure(422, { detail: '1 thing is wrong.', errors });
    expect(failure.message).toBe('1 thing is wrong.');
    expect(failure.reasonFor('/observations')).toBe('is not on the drawing');
    expect(failure.sentenceFor('/observations')).toBe('Is not on the drawing.');
    expect(failure.sentenceFor('/name')).toBeUndefined();
    expect(failure.concerns(['/name', '/observations'])).toBe(true);
    expect(failure.concerns(['/name', '/observation'])).toBe(false);
  });

  it('says something about an answer that is no problem document', () => {
    expect(toFailure(502, null).message).toContain('Nothing that you entered is lost');
    expect(toFailure(418, 'Not here').message).toBe('Something went wrong at the service.');
  });
});
