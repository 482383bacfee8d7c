import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsNumber,
  IsObject,
  IsOptional,
  IsString,
  Max,
  MaxLength,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsDay } from '../shared/is-day.js';
import { IsName } from '../shared/is-name.js';
import { WeeklyHoursDto } from '../shared/weekly-hours.dto.js';

/** When somebody works, what for, and where their days begin. */
export class WorkingTimeFieldsDto {
  /** One for each day of the week on which they work. */
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => WeeklyHoursDto)
  @ArrayUnique(({ weekday }: WeeklyHoursDto) => weekday)
  @ArrayMaxSize(7)
  @IsArray()
  @ApiProperty({ type: [WeeklyHoursDto] })
  hours!: WeeklyHoursDto[];

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
