import { ApiProperty, IntersectionType, PartialType, PickType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayNotEmpty,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsIn,
  IsNotEmpty,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  Matches,
  MaxLength,
  ValidateNested,
} from 'class-validator';
import { PageQueryDto } from '../shared/page.dto.js';
import { IsDay } from '../shared/is-day.js';
import { TIME_OF_DAY } from '../shared/time-of-day.js';
import { MoveDto } from '../tickets/ticket-work.dto.js';
import { ASKED_ABOUT, type AskedAbout, VisitChangeNotesDto } from './visit-time.dto.js';
import { VISIT_KINDS, VISIT_STATES, type VisitKind, type VisitState } from './visit-lifecycle.js';

/** What is planned about a visit. */
export class VisitFieldsDto {
  /** Planned in good time, or called out because something does not work. */
  @IsIn(VISIT_KINDS)
  kind!: VisitKind;

  /**
   * The day, as the site's calendar has it.
   * @example "2026-05-04"
   */
  @IsDay()
  @ApiProperty({ format: 'date' })
  on!: string;

  /** When it begins by the site's clock; both times or neither. @example "08:30" */
  @IsOptional()
  @Matches(TIME_OF_DAY, { message: 'fromTime must be a time of day such as 08:30' })
  @ApiProperty({ type: String, pattern: TIME_OF_DAY.source, nullable: true, default: null })
  fromTime: string | null = null;

  /** When it is to be over. @example "10:00" */
  @IsOptional()
  @Matches(TIME_OF_DAY, { message: 'untilTime must be a time of day such as 10:00' })
  @ApiProperty({ type: String, pattern: TIME_OF_DAY.source, nullable: true, default: null })
  untilTime: string | null = null;

  /** Who goes, one of the firm's people; null until somebody is named. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', type: String, nullable: true, default: null })
  technicianId: string | null = null;

  /** @example "Half-yearly upkeep of both trunks" */
  @MaxLength(2000)
  @IsNotEmpty()
  @IsString()
  purpose!: string;

  /** Whether the visit is for upkeep, whatever tickets it is for besides. */
  @IsBoolean()
  upkeep: boolean = false;

  /** The tickets of the site that the visit is for; a visit is for tickets, for upkeep, or both. */
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  @ArrayMaxSize(50)
  @IsArray()
  @ApiProperty({ type: [String], format: 'uuid', default: [] })
  ticketIds: string[] = [];
}

/** Tickets that somebody must go to from now on, said with the visit that is for them: as their moves to `to-visit`. */
export class SendingDto extends PickType(MoveDto, ['saidBy', 'reason']) {
  /** Of the visit's. Those of them that are `to-visit` already stay as they are. */
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  @ArrayMaxSize(50)
  @ArrayNotEmpty()
  @IsArray()
  @ApiProperty({ type: [String], format: 'uuid' })
  ticketIds!: string[];
}

export class CreateVisitDto extends VisitFieldsDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;

  @IsUUID()
  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  /** What was asked about and is meant so. */
  @ArrayUnique()
  @IsIn(ASKED_ABOUT, { each: true })
  @IsArray()
  @ApiProperty({ enum: ASKED_ABOUT, isArray: true, default: [] })
  confirmed: AskedAbout[] = [];

  /** Moves tickets with it: all of it is done, or nothing. */
  @IsOptional()
  @Type(() => SendingDto)
  @ValidateNested()
  @IsObject()
  @ApiProperty({ type: SendingDto, required: false })
  sending?: SendingDto;
}

/** A merge patch (RFC 7396): what is left out stays, null removes. */
export class PatchVisitDto extends PartialType(
  IntersectionType(VisitFieldsDto, VisitChangeNotesDto),
) {}

export class VisitQueryDto extends PageQueryDto {
  /** Only visits to this site. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  site?: string;

  /** Only visits for this ticket. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  ticket?: string;

  /** Only visits of this technician. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  technician?: string;

  /** Only visits on this day. */
  @IsOptional()
  @IsDay()
  @ApiProperty({ format: 'date', required: false })
  on?: string;

  /** The first day. */
  @IsOptional()
  @IsDay()
  @ApiProperty({ format: 'date', required: false })
  from?: string;

  /** The day after the last. */
  @IsOptional()
  @IsDay()
  @ApiProperty({ format: 'date', required: false })
  until?: string;

  @IsOptional()
  @IsIn(VISIT_STATES)
  state?: VisitState;
}

export class VisitDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  @ApiProperty({ enum: VISIT_KINDS })
  kind!: VisitKind;

  /** The day, as the site's calendar has it. */
  @ApiProperty({ format: 'date' })
  on!: string;

  /** By the site's clock; null: some time of the day. */
  fromTime!: string | null;
  untilTime!: string | null;

  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  technicianId!: string | null;

  purpose!: string;
  upkeep!: boolean;

  @ApiProperty({ type: [String], format: 'uuid' })
  ticketIds!: string[];

  @ApiProperty({ enum: VISIT_STATES })
  state!: VisitState;

  /** The states it can go to. */
  @ApiProperty({ enum: VISIT_STATES, isArray: true })
  moves!: readonly VisitState[];

  workDone!: string | null;
  startedAt!: Date | null;
  finishedAt!: Date | null;
  /** There and back, as it was said when it was done. */
  travelMinutes!: number | null;

  /** Goes up with each change; the ETag. */
  version!: number;
  createdAt!: Date;
}

export class VisitPageDto {
  items!: VisitDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
