import { ApiProperty, PartialType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsISO4217CurrencyCode,
  IsIn,
  IsInt,
  IsNotEmpty,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  Max,
  MaxLength,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsDay } from '../shared/is-day.js';
import { IsName } from '../shared/is-name.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { CoverageDto, PromiseDto, VisitHoursDto, VisitRhythmDto } from './contract-terms.dto.js';
import { CONTRACT_KINDS, type ContractKind } from './contract-kinds.js';
import { TROUBLE_CLASSES } from './class-of-trouble.js';

/** What a contract says. */
export class ContractFieldsDto {
  /** @example "Upkeep 2026, Larkfield schools" */
  @MaxLength(200)
  @IsName()
  @IsString()
  title!: string;

  @IsUUID()
  @ApiProperty({ format: 'uuid' })
  clientId!: string;

  /** The sites that it covers, all of the client. */
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  @ArrayMaxSize(100)
  @ArrayMinSize(1)
  @IsArray()
  @ApiProperty({ type: [String], format: 'uuid' })
  siteIds!: string[];

  /** The first day, by each site's calendar. */
  @IsDay()
  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @IsDay()
  @ApiProperty({ format: 'date' })
  until!: string;

  /** Comprehensive: parts and labour; labour-only: parts are paid for besides. */
  @IsIn(CONTRACT_KINDS)
  kind!: ContractKind;

  /** Planned visits to each site in a contract year; a last year that is shorter has its share, rounded up. */
  @Max(52)
  @Min(0)
  @IsInt()
  visitsPerYear!: number;

  /** Null: spread evenly. */
  @IsOptional()
  @ValidateNested()
  @Type(() => VisitRhythmDto)
  @ApiProperty({ type: VisitRhythmDto, nullable: true, default: null })
  visitRhythm: VisitRhythmDto | null = null;

  @ValidateNested()
  @Type(() => VisitHoursDto)
  @ApiProperty({ type: VisitHoursDto, required: false })
  visitHours: VisitHoursDto = new VisitHoursDto();

  /** Call-outs of a contract year that the fee includes; null: all. */
  @IsOptional()
  @Max(10_000)
  @Min(0)
  @IsInt()
  callOutsPerYear: number | null = null;

  /** For a contract year, in the currency's minor units. @example 240000 */
  @Max(1e12)
  @Min(0)
  @IsInt()
  feeMinor!: number;

  /** ISO 4217. @example "EUR" */
  @IsISO4217CurrencyCode()
  @ApiProperty({ pattern: '^[A-Z]{3}$' })
  currency!: string;

  /** By class of trouble; for one that is not here nothing is promised. */
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => PromiseDto)
  @ArrayMaxSize(TROUBLE_CLASSES.length)
  @IsArray()
  promises!: PromiseDto[];

  @ValidateNested()
  @Type(() => CoverageDto)
  @IsNotEmpty()
  coverage!: CoverageDto;

  /** Whether the clock stops while a part is on order. */
  @IsBoolean()
  pausesForParts: boolean = false;

  /** What it does not include. */
  @IsOptional()
  @MaxLength(4000)
  @IsString()
  exclusions: string | null = null;

  /** Days before the end by which it is ended, or goes on. @example 60 */
  @IsOptional()
  @Max(1000)
  @Min(0)
  @IsInt()
  noticeDays: number | null = null;
}

export class CreateContractDto extends ContractFieldsDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;
}

/** A merge patch (RFC 7396): what is left out stays, null removes. */
export class PatchContractDto extends PartialType(ContractFieldsDto) {}

/** What is otherwise in the next contract; all else is as in this one. */
export class RenewContractDto extends PartialType(ContractFieldsDto) {
  /** Your own id for the next one, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;
}

export class ContractQueryDto extends PageQueryDto {
  /** Only contracts of this client. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  client?: string;

  /** Only contracts that cover this site. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  site?: string;

  /** Only contracts in force on this day. */
  @IsOptional()
  @IsDay()
  @ApiProperty({ format: 'date', required: false })
  on?: string;
}

export class ContractDto extends ContractFieldsDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** The contract that this one followed. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  renewedFrom!: string | null;

  /** Goes up with each change; the ETag. */
  version!: number;
  createdAt!: Date;
}

export class ContractPageDto {
  items!: ContractDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
