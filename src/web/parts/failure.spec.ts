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
  });

  it('says beside the fields what no field of the page shows', () => {
    const node = { field: '/observations/2/node', reason: 'is not on the drawing' };
    const note = { field: '/note', reason: 'is too long' };
    const failure = toFailure(422, { detail: '2 things are wrong.', errors: [node, note] });
    expect(failure.besides(['/observations', '/note'])).toBeUndefined();
    expect(failure.besides(['/name', '/observations'])).toBe('Is too long.');
    const all = '2 things are wrong. Is not on the drawing. Is too long.';
    expect(failure.besides(['/name', '/observation'])).toBe(all);
    expect(toFailure(409, { detail: 'Not so.' }).besides(['/name'])).toBe('Not so.');
  });

  it('says everything that is wrong with one field, and nothing twice', () => {
    const errors = [
      { field: '/on', reason: 'is a public holiday there' },
      { field: '/on', reason: 'Its time has gone by.' },
    ];
    const failure = toFailure(409, { detail: 'Its time has gone by. Is it meant so?', errors });
    expect(failure.sentenceFor('/on')).toBe('Is a public holiday there. Its time has gone by.');
    expect(failure.besides(['/name'])).toBe(
      'Its time has gone by. Is it meant so? Is a public holiday there.',
    );
  });

  it('says something about an answer that is no problem document', () => {
    expect(toFailure(502, null).message).toContain('Nothing that you entered is lost');
    expect(toFailure(418, 'Not here').message).toBe('Something went wrong at the service.');
  });

  it('names no states of the wire where somebody else was quicker', () => {
    const type = 'urn:lastheard:problem:move-not-allowed';
    const detail = 'A ticket that is "closed" cannot become "closed"; it can become: reported.';
    const failure = toFailure(409, { type, detail, from: 'closed', to: 'closed' });
    expect(failure.inFull).toBe('Its state changed meanwhile, and this cannot be done any more.');
    expect(failure.isAlreadySo).toBe(true);
  });
});
