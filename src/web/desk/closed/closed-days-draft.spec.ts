import { describe, expect, it } from '@jest/globals';
import { closedDaysDraft, countDays, refuseDays, withDays } from './closed-days-draft.js';

describe('closed days that are typed', () => {
  const empty = closedDaysDraft();

  it('need a first day, and a last one that is not before it', () => {
    expect(refuseDays({ first: '', last: '2026-12-24' })).toBe('noFirst');
    expect(refuseDays({ first: '2026-12-24', last: '2026-12-23' })).toBe('lastBefore');
    expect(refuseDays({ first: '2026-12-24', last: '2026-12-24' })).toBeUndefined();
    expect(refuseDays({ first: '2026-12-24', last: '' })).toBeUndefined();
  });

  it('are kept in order, to the day after the last, over a year’s end and 29 February', () => {
    const winter = { ...empty, first: '2027-12-24', last: '2028-01-02', what: ' Winter ' };
    const one = withDays(winter, 'Closed');
    const both = withDays({ ...one, first: '2024-02-28', last: '2024-02-29' }, 'Closed');
    expect(both).toEqual({
      ...empty,
      times: [
        { from: '2024-02-28', until: '2024-03-01', name: 'Closed' },
        { from: '2027-12-24', until: '2028-01-03', name: 'Winter' },
      ],
    });
    expect(countDays(both.times)).toBe(12);
  });

  it('count once where two of them are the same days', () => {
    const times = [
      { from: '2026-03-02', until: '2026-03-05', name: 'Exams' },
      { from: '2026-03-04', until: '2026-03-06', name: 'Fair' },
    ];
    expect(countDays(times)).toBe(4);
    expect(countDays([])).toBe(0);
  });
});
