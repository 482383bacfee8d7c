import { describe, expect, it } from '@jest/globals';
import { dayReader } from './sheet-day.js';

const AMBIGUOUS = 'could be two days; write it as year-month-day, or name the locale of the sheet';
const NO_DAY = 'is not a date written as year-month-day, such as 2024-05-03';
const NO_SUCH = 'is no day of the calendar as this sheet writes them';

function read(cell: string, locale?: string, cells = [cell]): string {
  const result = dayReader(cells, locale)(cell);
  return 'day' in result ? result.day : result.reason;
}

describe('dayReader', () => {
  it.each<[string, string | undefined, string]>([
    ['2024-05-03', undefined, '2024-05-03'],
    ['2024-05-03 00:00:00', undefined, '2024-05-03'],
    ['2024/5/3', undefined, '2024-05-03'],
    ['2024. 5. 3.', undefined, '2024-05-03'],
    ['3.5.2024', undefined, '2024-05-03'],
    ['03.05.24', undefined, '2024-05-03'],
    ['3.5.98', undefined, '1998-05-03'],
    ['25/3/2024', undefined, '2024-03-25'],
    ['3/25/2024', undefined, '2024-03-25'],
    ['5/5/2024', undefined, '2024-05-05'],
    ['3/5/2024', undefined, AMBIGUOUS],
    ['3/5/2024', 'en-GB', '2024-05-03'],
    ['3/5/2024', 'en-US', '2024-03-05'],
    ['3-5-2024', 'nl', '2024-05-03'],
    ['25/3/2024', 'en-US', NO_SUCH],
    ['31/6/2024', 'fr', NO_SUCH],
    ['30.2.2024', undefined, NO_SUCH],
    ['3-May-24', undefined, '2024-05-03'],
    ['May 3, 2024', undefined, '2024-05-03'],
    ['3. Mai 2024', 'de', '2024-05-03'],
    ['3. Mai 2024', undefined, NO_DAY],
    ['3 de mayo de 2024', 'es', '2024-05-03'],
    ['3 févr. 2024', 'fr', '2024-02-03'],
    ['3 मई 2024', 'hi', '2024-05-03'],
    ['spring 2024', undefined, NO_DAY],
    ['3 May', undefined, NO_DAY],
    ['2024', undefined, NO_DAY],
    ['3/5/2024/6', 'fr', NO_DAY],
  ])('reads %s of %s as %s', (cell, locale, expected) => {
    expect(read(cell, locale)).toBe(expected);
  });

  it('takes the order that another day of the same sheet shows, unless they contradict each other', () => {
    expect(read('3/5/2024', undefined, ['3/5/2024', '25/12/2020'])).toBe('2024-05-03');
    expect(read('3/5/2024', undefined, ['3/5/2024', '12/25/2020'])).toBe('2024-03-05');
    expect(read('3/5/2024', undefined, ['25/12/2020', '12/25/2020'])).toBe(AMBIGUOUS);
    expect(read('25/12/2020', undefined, ['25/12/2020', '12/25/2020'])).toBe('2020-12-25');
  });
});
