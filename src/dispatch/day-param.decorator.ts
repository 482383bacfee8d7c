import { Param, type PipeTransform } from '@nestjs/common';
import { InvalidInputError } from '../shared/domain-error.js';
import { isDay } from '../shared/is-day.js';

const IsDayPipe: PipeTransform<string, string> = {
  transform: (day) => {
    if (isDay(day)) return day;
    const reason = 'must be a day written year-month-day, such as 2026-05-04';
    throw new InvalidInputError([{ field: 'day', reason }]);
  },
};

/** The path parameter `day`. */
export function DayParam(): ParameterDecorator {
  return Param('day', IsDayPipe);
}
