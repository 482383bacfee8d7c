import { ApiProperty, IntersectionType, PickType } from '@nestjs/swagger';
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

/** Sets of constraints. */
function ConstraintSets(): PropertyDecorator {
  const items = { type: 'string', enum: [...CONSTRAINTS] };
  return ApiProperty({ type: 'array', items: { type: 'array', items } });
}

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

/** What is wanted, as it is kept: with why. */
export class PutQuarterWishDto extends IntersectionType(
  QuarterWishDto,
  PickType(JobWishFieldsDto, ['reason'] as const),
) {}

export class KeptQuarterWishDto extends PutQuarterWishDto {
  /** The name of who wanted it last. */
  changedBy!: string;
  changedAt!: Date;

  /** Goes up with each change; the ETag. */
  version!: number;
}

export class OwedQuarterDto {
  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @ApiProperty({ format: 'date' })
  until!: string;

  /** The best day that is first is first. */
  @ApiProperty({ type: [OwedVisitDto] })
  visits!: OwedVisitDto[];

  /** What is wanted of them, by everybody who plans these weeks; what was wanted last is last. */
  @ApiProperty({ type: [KeptQuarterWishDto] })
  wishes!: KeptQuarterWishDto[];

  /** There is more than a plan takes; what begins later is left out. */
  isCutOff!: boolean;
}

export class NextBestDto {
  @ApiProperty({ format: 'date' })
  on!: string;

  @ApiProperty({ format: 'uuid' })
  technicianId!: string;

  /** What it would weigh more, the rest of the plan as it is. */
  extraMinutes!: number;
}

export class PlacedVisitDto extends OwedVisitDto {
  @ApiProperty({ format: 'date' })
  on!: string;

  @ApiProperty({ format: 'uuid' })
  technicianId!: string;

  /** Sites near to each other have one number; of this plan alone. */
  area!: number;

  /** One way does for this and others of its area on the same day by the same technician. */
  sharesWay!: boolean;

  /**
   * What the best day would weigh more, or the first of the plan where that has gone by, the rest of the plan as it is; null: it is
   * there, or cannot be.
   */
  idealExtraMinutes!: number | null;

  /** What stands against the best day, as `conflicts` of a visit that is left. */
  @ConstraintSets()
  idealConflicts!: Constraint[][];

  /** The next best day or technician; null: nothing else is possible. */
  @ApiProperty({ type: NextBestDto, nullable: true })
  instead!: NextBestDto | null;
}

export class LeftVisitDto extends OwedVisitDto {
  /**
   * `no-day`: nothing is open then; `weighs-less`: there would be room, but the way weighs more than leaving it; `wishes`: what
   * somebody wants of it cannot all be; `said-so`: somebody wants it left.
   */
  @ApiProperty({ enum: OBSTACLES })
  why!: (typeof OBSTACLES)[number];

  /** What conflicts, the smallest sets: were the constraints of any one set not there, it could be placed. */
  @ConstraintSets()
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

export class PlanQuarterDto {
  /** In place of what is kept of these weeks; left out: as it is kept. */
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => QuarterWishDto)
  @ArrayMaxSize(MOST_PLACED)
  @IsArray()
  @IsOptional()
  @ApiProperty({ type: [QuarterWishDto], required: false })
  wishes?: QuarterWishDto[];

  /** Answers the first plan that is found, at once, in place of the best one. */
  @IsBoolean()
  isQuick: boolean = false;
}

/**
 * A visit to be planned as the plan had it, or as somebody changed it. Who makes it or does not, its skills and why are kept as what
 * is wanted of the visit, by which a plan of its day goes.
 */
export class ChosenVisitDto extends PickType(JobWishFieldsDto, [
  'pinnedTo',
  'notBy',
  'skills',
  'reason',
] as const) {
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
