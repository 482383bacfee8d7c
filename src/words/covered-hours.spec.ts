import { describe, expect, it } from '@jest/globals';
import { LANGUAGES } from './index.js';
import { reviewWordsIn } from './review-words-in.js';

const week = (from: string, until: string, days = [1, 2, 3, 4, 5, 6, 7]) =>
  days.map((weekday) => ({ weekday, from, until }));
const told = reviewWordsIn('en').coveredHours;

describe('when the hours of a contract count', () => {
  it('says round the clock of seven whole days, in each language', () => {
    const always = LANGUAGES.map((one) => reviewWordsIn(one).coveredHours(week('00:00', '24:00')));
    expect(always).toEqual([
      'The hours count round the clock, on all seven days.',
      'Las horas cuentan las 24 horas, los siete días de la semana.',
      'ये घंटे चौबीसों घंटे, सातों दिन गिने जाते हैं।',
      'Les heures comptent 24 heures sur 24, sept jours sur sept.',
    ]);
  });

  it('says so too where a day is in two halves that meet', () => {
    const halves = [...week('12:00', '24:00'), ...week('00:00', '12:00')];
    expect(told(halves)).toBe(told(week('00:00', '24:00')));
  });

  it('does not say so where a day, or a minute of one, is missing', () => {
    expect(told(week('00:00', '24:00', [1, 2, 3, 4, 5, 6]))).toBe(
      'The hours count on Monday to Saturday 00:00 to 24:00.',
    );
    expect(told([...week('00:00', '24:00').slice(0, 6), ...week('00:00', '23:59', [7])])).toBe(
      'The hours count on Monday to Saturday 00:00 to 24:00 and Sunday 00:00 to 23:59.',
    );
    expect(told([...week('00:00', '11:59'), ...week('12:00', '24:00')])).not.toContain('clock');
  });

  it('tells days with the same hours together, and others by themselves', () => {
    expect(told([...week('13:00', '17:00', [1, 2]), ...week('08:00', '12:00', [1, 2, 3, 5])])).toBe(
      'The hours count on Monday to Wednesday 08:00 to 12:00, Monday to Tuesday 13:00 to 17:00 and Friday 08:00 to 12:00.',
    );
  });
});
