import { ApiProperty, PartialType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  IsArray,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  MaxLength,
  ValidateNested,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { ClosedTimeDto } from './contract-terms.dto.js';
import { MAX_CLOSED_TIMES } from './closed-time.js';

const MAX_ICALENDAR = 200_000;

/** Closed times that several contracts may go by. */
export class ClosedCalendarFieldsDto {
  /** @example "School holidays, Larkfield" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => ClosedTimeDto)
  @ArrayMaxSize(MAX_CLOSED_TIMES)
  @IsArray()
  @ApiProperty({ type: [ClosedTimeDto], default: [] })
  times: ClosedTimeDto[] = [];
}

export class CreateClosedCalendarDto extends ClosedCalendarFieldsDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;
}

/** A merge patch (RFC 7396): what is left out stays, null removes. */
export class PatchClosedCalendarDto extends PartialType(ClosedCalendarFieldsDto) {}

export class ImportCalendarDto {
  /** The text of an iCalendar file (RFC 5545); its events of whole days become the calendar's times. */
  @MaxLength(MAX_ICALENDAR)
  @IsString()
  icalendar!: string;
}

/** What the text of a calendar would close. */
export class ReadDaysDto {
  times!: ClosedTimeDto[];

  /** Events at times of day, and those that were called off: they close no day. */
  leftOut!: number;
}

export class ClosedCalendarDto extends ClosedCalendarFieldsDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** Goes up with each change; the ETag. */
  version!: number;
  createdAt!: Date;
}

export class ClosedCalendarPageDto {
  items!: ClosedCalendarDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
