import { ApiProperty } from '@nestjs/swagger';
import { Transform, Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsIn,
  IsInt,
  IsUUID,
  Max,
  Min,
} from 'class-validator';
import { CONTRACT_KINDS, type ContractKind } from '../contracts/contract-kinds.js';

/** Sites that no contract covers yet, or otherwise. */
export class ShouldCostQueryDto {
  /** Ids, one after the other with commas. */
  @Transform(({ value }: { value: unknown }) =>
    typeof value === 'string' ? value.split(',') : value,
  )
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  @ArrayMaxSize(100)
  @ArrayMinSize(1)
  @IsArray()
  @ApiProperty({ type: String, example: '01930000-0000-7000-8000-000000030001' })
  sites!: string[];

  /** Planned visits to each. */
  @Type(() => Number)
  @Max(52)
  @Min(0)
  @IsInt()
  visitsPerYear: number = 2;

  @IsIn(CONTRACT_KINDS)
  kind: ContractKind = 'comprehensive';
}

/** A figure of the next year; between low and high it is with the chance that `coverage` says. */
export class RangeDto {
  mean!: number;
  low!: number;
  median!: number;
  high!: number;
}

export class ExpectedPartDto {
  name!: string;
  /** Of the year, on average. */
  quantity!: number;
  /** Of one; null: the firm has no price for it. */
  minor!: number | null;
}

export class SiteShouldCostDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;
  callOuts!: RangeDto;
  /** Call-outs and planned visits. */
  minutesOnSite!: RangeDto;

  /** Work and ways; null without prices. */
  @ApiProperty({ type: RangeDto, nullable: true })
  labourMinor!: RangeDto | null;
}

/** How much is on record: with little, the intervals are wide. */
export class LearnedFromDto {
  callOuts!: number;
  upkeepVisits!: number;
  mendings!: number;
}

/** What the next year of some sites is expected to take. */
export class ShouldCostDto {
  /** Of every interval. */
  coverage!: number;
  draws!: number;
  seed!: number;

  /** ISO 4217, of the firm's prices and of all amounts; null without prices. */
  currency!: string | null;
  callOuts!: RangeDto;
  minutesOnSite!: RangeDto;
  travelMinutes!: RangeDto;

  /** Of those that have a price, whoever pays them. */
  @ApiProperty({ type: RangeDto, nullable: true })
  partsMinor!: RangeDto | null;

  /** Work, ways and, where they are included, parts. */
  @ApiProperty({ type: RangeDto, nullable: true })
  costMinor!: RangeDto | null;

  /** Of a contract in the same currency. */
  feeMinor!: number | null;
  /** That the fee is at least what the year costs. */
  chanceFeeCovers!: number | null;
  /** At most 100, the dearest of the year first, then those without a price. */
  parts!: ExpectedPartDto[];
  /** So many more there are. */
  partsNotNamed!: number;
  sites!: SiteShouldCostDto[];
  learnedFrom!: LearnedFromDto;
}
