import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsIn,
  IsNotEmpty,
  IsObject,
  IsOptional,
  IsString,
  MaxLength,
  ValidateNested,
} from 'class-validator';
import type { InformantKind } from '../plan/error-rates.js';
import { SEEN } from '../plan/look-errors.js';
import { RemarkedDto } from '../reports/report.dto.js';
import { WithdrawalDto } from '../reports/withdrawal.dto.js';
import { PlaceDto } from '../sites/place.dto.js';
import type { SeenPart } from './look.js';

/** What one request may bring. */
const MOST_LOOKS_AT_ONCE = 100;

/** A part that somebody looked at, and how they found it. */
export class SeenDto {
  @IsNotEmpty()
  @IsObject()
  @Type(() => PlaceDto)
  @ValidateNested()
  @ApiProperty({ type: PlaceDto })
  place!: PlaceDto;

  /**
   * Of a span: `junction-out`, `cable` or `junction-in`; of a station: `unit`, or one of its modes, such as
   * `volume-down`; of a port or the head-end: one of its modes. The office opens nothing: it can look at the head-end, and
   * at a station’s `unit`, volume and settings.
   * @example "junction-in"
   */
  @MaxLength(100)
  @IsString()
  part!: string;

  /** Of `group-off`, `group-bell-off` and `group-announcement-off` of the head-end: the group of stations. */
  @IsOptional()
  @MaxLength(200)
  @IsString()
  group?: string | null = null;

  @IsIn(SEEN)
  seen!: SeenPart['seen'];
}

/** One look, or a list of them. The last one of somebody at the same part stands for those before it. */
export class TakeLooksDto extends RemarkedDto {
  /** Of one look; so are `part`, `group` and `seen`. */
  @IsOptional()
  @IsObject()
  @Type(() => PlaceDto)
  @ValidateNested()
  @ApiProperty({ type: PlaceDto, required: false })
  place?: PlaceDto;

  /** @example "junction-in" */
  @IsOptional()
  @MaxLength(100)
  @IsString()
  part?: string;

  @IsOptional()
  @MaxLength(200)
  @IsString()
  group?: string | null = null;

  @IsOptional()
  @IsIn(SEEN)
  seen?: SeenPart['seen'];

  @IsOptional()
  @ArrayMaxSize(MOST_LOOKS_AT_ONCE)
  @ArrayMinSize(1)
  @IsArray()
  @Type(() => SeenDto)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @ApiProperty({ type: [SeenDto], required: false, maxItems: MOST_LOOKS_AT_ONCE })
  looks?: SeenDto[];
}

/** A part that somebody looked at, about a ticket or on a visit. */
export class LookDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** Null on a visit. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  ticketId!: string | null;

  /** Null of one about a ticket. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  visitId!: string | null;

  /** The entry of the ticket’s log that brought it: a look, an answer or a finding; null on a visit. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  entryId!: string | null;

  @ApiProperty({ type: PlaceDto })
  place!: SeenPart['place'];

  part!: string;
  group!: string | null;

  @ApiProperty({ enum: SEEN })
  seen!: SeenPart['seen'];

  saidBy!: string;

  @ApiProperty({ enum: ['office', 'technician'] })
  saidByKind!: InformantKind;

  lookedAt!: Date;
  recordedAt!: Date;

  /** Which period between mendings of its ticket it belongs to, from 0; null on a visit. */
  @ApiProperty({ type: Number, nullable: true })
  period!: number | null;

  note!: string | null;

  /** Who withdrew it, when and why: it is no evidence any more. Null where nobody did. */
  @ApiProperty({ type: WithdrawalDto, nullable: true })
  withdrawal!: WithdrawalDto | null;
}

export class LookListDto {
  /** Oldest first. */
  items!: LookDto[];
}

export class LookPageDto {
  items!: LookDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
