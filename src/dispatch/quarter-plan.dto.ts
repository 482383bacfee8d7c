import { ApiProperty, PickType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsIn,
  IsInt,
  IsObject,
  IsOptional,
  IsUUID,
  ValidateNested,
} from 'class-validator';
import { IsDay } from '../shared/is-day.js';
import { JobWishFieldsDto } from './job-wish.dto.js';
import { type Constraint, CONSTRAINTS } from './quarter-conflicts.js';
import { ASKED_ABOUT, type AskedAbout } from '../visits/visit-time.dto.js';

const OBSTACLES = [
  'no-day',
  'nobody-there',
  'no-room',
  'weighs-less',
  'wishes',
  'said-so',
] as const;

export const MOST_PLACED = 200;

/** A promised visit that nobody had planned. */
export class OwedVisitDto {
  @ApiProperty({ format: 'uuid' })
  contractId!: string;

  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  siteName!: string;

  /** Of the contract, 1 the first. */
  year!: number;
  /** Within the year, from 1. */
  ordinal!: number;

  /** The best day. */
  @ApiProperty({ format: 'date' })
  ideal!: string;

  /** Its time is over, and the year is not. */
  isLate!: boolean;
}

export class PlacedVisitDto extends OwedVisitDto {
  @ApiProperty({ format: 'date' })
  on!: string;

  @ApiProperty({ format: 'uuid' })
  technicianId!: string;

  /** Visits of the same day and technician to which one way does. */
  sharesWay!: boolean;
}

export class LeftVisitDto extends OwedVisitDto {
  /**
   * `no-day`: nothing is open then; `weighs-less`: there would be room, but the way weighs more than leaving it; `wishes`: what
   * somebody wants of it cannot all be; `said-so`: somebody wants it left.
   */
  @ApiProperty({ enum: OBSTACLES })
  why!: (typeof OBSTACLES)[number];

  /** What conflicts, the smallest sets: were the constraints of any one set not there, it could be placed. */
  @ApiProperty({
    type: 'array',
    items: { type: 'array', items: { type: 'string', enum: [...CONSTRAINTS] } },
  })
  conflicts!: Constraint[][];
}

export class QuarterPlanDto {
  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @ApiProperty({ format: 'date' })
  until!: string;

  /** By day, technician and site. */
  @ApiProperty({ type: [PlacedVisitDto] })
  placed!: PlacedVisitDto[];

  @ApiProperty({ type: [LeftVisitDto] })
  left!: LeftVisitDto[];

  /** Minutes of ways, days away from the best ones and what is left, as the plan weighs them. */
  cost!: number;

  /** No plan can weigh less. */
  bound!: number;

  isProven!: boolean;

  /** There was more than a plan takes; what begins later was left out. */
  isCutOff!: boolean;
}

/** What is wanted of a promised visit, by its contract, site, year and number within the year. */
export class QuarterWishDto extends PickType(JobWishFieldsDto, [
  'pinnedTo',
  'notBy',
  'skills',
] as const) {
  @IsUUID()
  @ApiProperty({ format: 'uuid' })
  contractId!: string;

  @IsUUID()
  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  @IsInt()
  year!: number;

  @IsInt()
  ordinal!: number;

  /** On this day and no other. */
  @IsOptional()
  @IsDay()
  @ApiProperty({ format: 'date', type: String, nullable: true, default: null })
  on: string | null = null;

  @ArrayUnique()
  @IsDay({ each: true })
  @ArrayMaxSize(91)
  @IsArray()
  @ApiProperty({ type: [String], format: 'date', default: [] })
  notOn: string[] = [];

  /** Not in this plan at all. */
  @IsBoolean()
  isLeft: boolean = false;
}

export class PlanQuarterDto {
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => QuarterWishDto)
  @ArrayMaxSize(MOST_PLACED)
  @IsArray()
  @ApiProperty({ type: [QuarterWishDto], default: [] })
  wishes: QuarterWishDto[] = [];
}

/**
 * A visit to be planned as the plan had it, or as somebody changed it. Its skills are kept as what is wanted of the visit, by which
 * a plan of its day goes.
 */
export class ChosenVisitDto extends PickType(JobWishFieldsDto, ['skills'] as const) {
  @IsUUID()
  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  @IsDay()
  @ApiProperty({ format: 'date' })
  on!: string;

  @IsUUID()
  @ApiProperty({ format: 'uuid' })
  technicianId!: string;
}

export class AcceptQuarterDto {
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => ChosenVisitDto)
  @ArrayMinSize(1)
  @ArrayMaxSize(MOST_PLACED)
  @IsArray()
  @ApiProperty({ type: [ChosenVisitDto] })
  visits!: ChosenVisitDto[];

  /** What was asked about and is meant so. */
  @IsIn(ASKED_ABOUT, { each: true })
  @ArrayMaxSize(ASKED_ABOUT.length)
  @IsArray()
  @ApiProperty({ enum: ASKED_ABOUT, isArray: true, default: [] })
  confirmed: AskedAbout[] = [];
}

export class AcceptedQuarterDto {
  /** The visits that are planned now, in the order sent. */
  @ApiProperty({ type: [String], format: 'uuid' })
  visitIds!: string[];
}
