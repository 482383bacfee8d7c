import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayUnique,
  IsArray,
  IsIn,
  IsInt,
  IsObject,
  IsOptional,
  IsString,
  IsTimeZone,
  IsUUID,
  Matches,
  Max,
  MaxLength,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsDay } from '../shared/is-day.js';
import { IsName } from '../shared/is-name.js';
import { WeeklyHoursDto } from '../shared/weekly-hours.dto.js';
import { TROUBLE_CLASSES, type TroubleClass } from './class-of-trouble.js';

const MAX_WINDOWS = 50;
const MAX_MINUTES = 60 * 24 * 60;

/** Days on end on which nothing runs. */
export class ClosedTimeDto {
  /** The first day. */
  @IsDay()
  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @IsDay()
  @ApiProperty({ format: 'date' })
  until!: string;

  /** @example "Works closed" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;
}

export class HolidayRegionDto {
  /** ISO 3166-1. @example "DE" */
  @Matches(/^[A-Z]{2}$/, { message: 'country must be two capital letters such as DE' })
  @ApiProperty({ pattern: '^[A-Z]{2}$' })
  country!: string;

  /** A part of it, or a part of that. @example "BY" */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  region: string | null = null;
}

/** When what is promised runs. */
export class CoverageDto {
  /** IANA time zone of the hours; null: each site's own. */
  @IsOptional()
  @IsTimeZone({ message: 'zone must be an IANA time zone such as Europe/Lisbon' })
  zone: string | null = null;

  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => WeeklyHoursDto)
  @ArrayMaxSize(MAX_WINDOWS)
  @IsArray()
  windows!: WeeklyHoursDto[];

  /** Whose public holidays are not covered; null: none are left out. */
  @IsOptional()
  @ValidateNested()
  @Type(() => HolidayRegionDto)
  @ApiProperty({ type: HolidayRegionDto, nullable: true, default: null })
  publicHolidays: HolidayRegionDto | null = null;

  /** Own closed days. */
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => ClosedTimeDto)
  @ArrayMaxSize(200)
  @IsArray()
  @ApiProperty({ type: [ClosedTimeDto], default: [] })
  closedDays: ClosedTimeDto[] = [];

  /** Calendars of the firm whose days are not covered, such as a school's holidays. */
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  @ArrayMaxSize(10)
  @IsArray()
  @ApiProperty({ type: [String], format: 'uuid', default: [] })
  calendarIds: string[] = [];
}

/** When planned visits may be made. */
export class VisitHoursDto {
  /** None: in the coverage hours. */
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => WeeklyHoursDto)
  @ArrayMaxSize(MAX_WINDOWS)
  @IsArray()
  @ApiProperty({ type: [WeeklyHoursDto], default: [] })
  windows: WeeklyHoursDto[] = [];

  /** Calendars of the firm on whose days no visit is made, such as exams. */
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  @ArrayMaxSize(10)
  @IsArray()
  @ApiProperty({ type: [String], format: 'uuid', default: [] })
  avoidCalendarIds: string[] = [];
}

/** Visits on a fixed day each so many months. */
export class VisitRhythmDto {
  @IsIn([1, 2, 3, 4, 6, 12])
  everyMonths!: number;

  /** Day of the month; the last one where the month is shorter. @example 31 */
  @Max(31)
  @Min(1)
  @IsInt()
  onDay!: number;
}

/** What is promised for one class of trouble, in minutes of covered time. */
export class PromiseDto {
  @IsIn(TROUBLE_CLASSES)
  troubleClass!: TroubleClass;

  /** Until somebody is on site. @example 240 */
  @Max(MAX_MINUTES)
  @Min(1)
  @IsInt()
  responseMinutes!: number;

  /** Until it works again; null: not promised. @example 960 */
  @IsOptional()
  @Max(MAX_MINUTES)
  @Min(1)
  @IsInt()
  restoreMinutes: number | null = null;
}
