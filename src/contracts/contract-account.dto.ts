import { ApiProperty, PartialType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  IsArray,
  IsISO4217CurrencyCode,
  IsInt,
  IsObject,
  IsString,
  Max,
  MaxLength,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { PROMISE_KINDS, type PromiseKind } from './contract-kinds.js';

const MOST_MINOR = 1e9;

export class PartPriceDto {
  /** As it is written down on mendings; capitals do not matter. @example "wire ferrule" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  @Max(MOST_MINOR)
  @Min(0)
  @IsInt()
  minor!: number;
}

/** What work, ways and parts cost the firm, in minor units. */
export class FirmPricesFieldsDto {
  /** ISO 4217. @example "EUR" */
  @IsISO4217CurrencyCode()
  @ApiProperty({ pattern: '^[A-Z]{3}$' })
  currency!: string;

  /** Of an hour on site. @example 5200 */
  @Max(MOST_MINOR)
  @Min(0)
  @IsInt()
  hourMinor!: number;

  /** Of an hour on the way. */
  @Max(MOST_MINOR)
  @Min(0)
  @IsInt()
  travelHourMinor!: number;

  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => PartPriceDto)
  @ArrayMaxSize(500)
  @IsArray()
  @ApiProperty({ type: [PartPriceDto], default: [] })
  parts: PartPriceDto[] = [];
}

/** A merge patch (RFC 7396): what is left out stays, null removes. */
export class PatchFirmPricesDto extends PartialType(FirmPricesFieldsDto) {}

export class FirmPricesDto extends FirmPricesFieldsDto {
  /** 0 while nothing was said; the ETag. */
  version!: number;
}

export class UsedPartDto {
  name!: string;
  quantity!: number;
  /** What they cost; null: the firm has no price for it. */
  minor!: number | null;
}

/** How many tickets kept a promise. */
export class KeptPromisesDto {
  @ApiProperty({ enum: PROMISE_KINDS })
  promise!: PromiseKind;
  met!: number;
  breached!: number;
  /** Neither yet. */
  open!: number;
}

/** What a contract took at one site in one of its years. */
export class AccountLineDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;
  /** Of the contract, 1 the first. */
  year!: number;
  plannedVisits!: number;
  callOuts!: number;
  /** From when visits began until they were done. */
  minutesOnSite!: number;
  travelMinutes!: number;
  /** Visits of which nobody said how long the way was. */
  visitsWithoutTravel!: number;
  parts!: UsedPartDto[];
}

export class AccountYearDto {
  /** Of the contract, 1 the first. */
  year!: number;

  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @ApiProperty({ format: 'date' })
  until!: string;

  /** Of the fee for a whole year, a shorter one by its days. */
  feeMinor!: number;
  callOuts!: number;

  /** Null: all are included. */
  callOutsIncluded!: number | null;
  callOutsBeyond!: number;
  minutesOnSite!: number;
  travelMinutes!: number;

  /** At the firm's prices; null where they are in another currency, or none were given. */
  labourMinor!: number | null;
  travelMinor!: number | null;

  /** Of those that have a price. */
  partsMinor!: number | null;

  /** Whether parts are the client's to pay, as the kind of contract has it: they are no cost then. */
  partsArePaidFor!: boolean;

  /** Parts that no price is known of. */
  unpricedParts!: string[];

  /** The fee without what the work, the ways and, if they are included, the parts cost. */
  balanceMinor!: number | null;
  kept!: KeptPromisesDto[];
}

export class ContractAccountDto {
  @ApiProperty({ format: 'uuid' })
  contractId!: string;

  /** ISO 4217, of all amounts. */
  currency!: string;
  years!: AccountYearDto[];

  /** By site and year. */
  lines!: AccountLineDto[];
}
