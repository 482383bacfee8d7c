import { ApiProperty } from '@nestjs/swagger';
import { IsInt, Matches, Max, Min } from 'class-validator';
import { TIME_OF_DAY } from './time-of-day.js';

/** Hours of a day of the week, by the wall clock there. */
export class WeeklyHoursDto {
  /** ISO 8601: Monday is 1, Sunday 7. */
  @Max(7)
  @Min(1)
  @IsInt()
  weekday!: number;

  /** @example "08:00" */
  @Matches(TIME_OF_DAY, { message: 'from must be a time of day such as 08:00' })
  @ApiProperty({ pattern: TIME_OF_DAY.source })
  from!: string;

  /** Past midnight is another window of the next day. @example "16:30" */
  @Matches(TIME_OF_DAY, { message: 'until must be a time of day such as 16:30, at most 24:00' })
  @ApiProperty({ pattern: TIME_OF_DAY.source })
  until!: string;
}
