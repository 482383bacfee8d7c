import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsObject,
  IsString,
  MaxLength,
  ValidateNested,
} from 'class-validator';
import type { InformantKind } from '../plan/error-rates.js';
import { RemarkedDto } from '../reports/report.dto.js';
import { IsDay } from '../shared/is-day.js';
import { IsName } from '../shared/is-name.js';

/** Near so many rooms at most does one entry say that somebody worked. */
const MOST_ROOMS = 300;

/** A station or a junction box near which somebody worked. */
export class NearRoomDto {
  /** @example "A" */
  @MaxLength(20)
  @IsString()
  trunk!: string;

  /** @example "A13" */
  @MaxLength(20)
  @IsString()
  node!: string;
}

/** What others did near parts of a site: what is near it fails more often for thirty days. */
export class TellWorkNearbyDto extends RemarkedDto {
  @ArrayMaxSize(MOST_ROOMS)
  @ArrayMinSize(1)
  @IsArray()
  @Type(() => NearRoomDto)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @ApiProperty({ type: [NearRoomDto], maxItems: MOST_ROOMS })
  rooms!: NearRoomDto[];

  /**
   * The day, by the site's calendar; of work over several days one entry a day, or the last.
   * @example "2026-02-20"
   */
  @IsDay()
  @ApiProperty({ format: 'date' })
  on!: string;

  /**
   * Who worked there.
   * @example "painters"
   */
  @MaxLength(200)
  @IsName()
  @IsString()
  byWhom!: string;
}

export class WorkNearbyDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  rooms!: NearRoomDto[];

  @ApiProperty({ format: 'date' })
  on!: string;

  byWhom!: string;
  note!: string | null;
  saidBy!: string;

  @ApiProperty({ enum: ['office', 'technician'] })
  saidByKind!: InformantKind;

  recordedAt!: Date;

  /** Who withdrew it; null: it stands. */
  withdrawnBy!: string | null;
  withdrawnAt!: Date | null;
  withdrawnBecause!: string | null;
}

export class WorkNearbyPageDto {
  /** The latest day first. */
  items!: WorkNearbyDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
