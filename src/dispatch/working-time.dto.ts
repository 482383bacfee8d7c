import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsInt,
  IsNumber,
  IsObject,
  IsOptional,
  IsString,
  Matches,
  Max,
  MaxLength,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsDay } from '../shared/is-day.js';
import { IsName } from '../shared/is-name.js';
import { TIME_OF_DAY } from '../shared/time-of-day.js';

/** Hours of a day of the week, by the wall clock. */
export class WorkingHoursDto {
  /** ISO 8601: Monday is 1, Sunday 7. */
  @Max(7)
  @Min(1)
  @IsInt()
  weekday!: number;

  /** @example "07:30" */
  @Matches(TIME_OF_DAY, { message: 'from must be a time of day such as 07:30' })
  @ApiProperty({ pattern: TIME_OF_DAY.source })
  from!: string;

  /** @example "16:00" */
  @Matches(TIME_OF_DAY, { message: 'until must be a time of day such as 16:00' })
  @ApiProperty({ pattern: TIME_OF_DAY.source })
  until!: string;
}

/** When somebody works, what for, and where their days begin. */
export class WorkingTimeFieldsDto {
  /** One for each day of the week on which they work. */
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => WorkingHoursDto)
  @ArrayUnique(({ weekday }: WorkingHoursDto) => weekday)
  @ArrayMaxSize(7)
  @IsArray()
  @ApiProperty({ type: [WorkingHoursDto] })
  hours!: WorkingHoursDto[];

  @IsDay({ each: true })
  @ArrayMaxSize(400)
  @IsArray()
  @ApiProperty({ type: [String], format: 'date', default: [] })
  daysOff: string[] = [];

  /** @example ["tower", "head-end"] */
  @MaxLength(60, { each: true })
  @IsName({ each: true })
  @IsString({ each: true })
  @ArrayMaxSize(30)
  @IsArray()
  @ApiProperty({ type: [String], default: [] })
  skills: string[] = [];

  @IsOptional()
  @Max(90)
  @Min(-90)
  @IsNumber()
  @ApiProperty({ type: Number, nullable: true, default: null })
  startLatitude: number | null = null;

  @IsOptional()
  @Max(180)
  @Min(-180)
  @IsNumber()
  @ApiProperty({ type: Number, nullable: true, default: null })
  startLongitude: number | null = null;

  /** Whether the way back belongs to the day. */
  @IsBoolean()
  endsAtStart: boolean = true;
}

export class WorkingTimeDto extends WorkingTimeFieldsDto {
  @ApiProperty({ format: 'uuid' })
  personId!: string;

  name!: string;

  /** Goes up with each change; the ETag. 0: nothing was said yet, and no plan has this person. */
  version!: number;
}

export class WorkingTimeListDto {
  items!: WorkingTimeDto[];
}
