import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsIn, IsInt, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { VISIT_STANDINGS, type VisitStanding } from './kept-visits.js';

export class ContractVisitQueryDto {
  /** Only this year of the contract, 1 the first; left out: all. */
  @IsOptional()
  @Type(() => Number)
  @Max(20)
  @Min(1)
  @IsInt()
  year?: number;

  /** Only this site. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  site?: string;

  @IsOptional()
  @IsIn(VISIT_STANDINGS)
  standing?: VisitStanding;
}

/** A visit that a contract promises for a site and a time. */
export class PromisedVisitDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  /** Of the contract, 1 the first. */
  year!: number;
  /** Within the year, from 1. */
  ordinal!: number;

  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @ApiProperty({ format: 'date' })
  until!: string;

  /** The best day; null: the whole year is closed to visits. */
  @ApiProperty({ format: 'date', type: String, nullable: true })
  ideal!: string | null;

  @ApiProperty({ enum: VISIT_STANDINGS })
  standing!: VisitStanding;

  /** The visit that keeps it, or is to. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  visitId!: string | null;

  @ApiProperty({ format: 'date', type: String, nullable: true })
  visitOn!: string | null;
}

export class YearOfVisitsDto {
  year!: number;

  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @ApiProperty({ format: 'date' })
  until!: string;

  promised!: number;

  /** How many of them stand how. */
  @ApiProperty({ type: Object, additionalProperties: { type: 'integer' } })
  standings!: Record<VisitStanding, number>;
}

export class ContractVisitsDto {
  @ApiProperty({ format: 'uuid' })
  contractId!: string;

  /** Of the sites and years asked for. */
  years!: YearOfVisitsDto[];

  /** By site, then time; those asked for. */
  items!: PromisedVisitDto[];

  /** Visits for upkeep beyond what was promised. */
  @ApiProperty({ type: [String], format: 'uuid' })
  further!: string[];
}
