import { ApiProperty, IntersectionType, OmitType, PartialType, PickType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsInt, IsOptional, Max, Min } from 'class-validator';
import {
  MAX_CORE_OHMS_PER_KM,
  MAX_SOURCE_OHMS,
  MAX_STATION_AMPS,
  MIN_CORE_OHMS_PER_KM,
} from '../locator/index.js';
import { FUNCTIONS, type FunctionName } from '../plan/functions.js';
import { MOST_GROUPS } from './as-built-fields.js';
import { NODE_KINDS, type NodeKind } from '../drawing/drawn-node.js';

const MOST_VERSION = 2_147_483_647;

export class HeadEndDto {
  /** @example "HE-6" */
  model!: string | null;
  serial!: string | null;
  /** @example "Office, block A" */
  place!: string | null;
  /** @example "2024-05-03" */
  @ApiProperty({ format: 'date' })
  installedOn!: string | null;
  /** @example 24 */
  supplyVolts!: number | null;

  /** Internal resistance of the supply. @example 0.2 */
  @ApiProperty({ minimum: 0, maximum: MAX_SOURCE_OHMS })
  supplyOhms!: number | null;

  /** What one station draws. @example 0.08 */
  @ApiProperty({ minimum: 0, maximum: MAX_STATION_AMPS })
  stationAmps!: number | null;

  /** Of one core of the trunks' cable, at 20 °C. @example 18.1 */
  @ApiProperty({ minimum: MIN_CORE_OHMS_PER_KM, maximum: MAX_CORE_OHMS_PER_KM })
  coreOhmsPerKm!: number | null;
}

/** One station or junction box, with the one span that feeds it. */
export class NodeDto {
  /**
   * Its code, unique within the trunk; tickets use it.
   * @example "A12"
   */
  @ApiProperty({ minLength: 1, maxLength: 20 })
  node!: string;

  @ApiProperty({ enum: NODE_KINDS })
  kind!: NodeKind;

  /** Code of the node that feeds it; null: the head-end. Left out of a drawing: the node before. */
  fedFrom!: string | null;

  /** @example "4 x 0.5" */
  cableType!: string | null;

  /** Length of the span that feeds it, in metres to the centimetre. */
  @ApiProperty({ exclusiveMinimum: 0, maximum: 2000 } as object)
  cableMetres!: number;

  /** Whether nobody measured that length: it is a typical one, or somebody's guess. */
  isLengthGuessed!: boolean;

  /** Stations only. */
  room!: string | null;
  block!: string | null;
  floor!: string | null;
  /** Stations only. */
  unitModel!: string | null;
  /** Stations only. */
  unitSerial!: string | null;
  /** Stations only. @example "2024-05-03" */
  @ApiProperty({ format: 'date' })
  unitInstalledOn!: string | null;

  /** Stations only. Groups of rooms that the head-end can set apart, by name. @example ["ground floor"] */
  @ApiProperty({ maxItems: MOST_GROUPS, uniqueItems: true })
  groups!: string[];

  /** Stations only. Bridged over or taken out: the cable goes through, nothing is there to speak. */
  isOut!: boolean;

  /** Stations only. What its unit was never fitted for. @example ["talkback"] */
  @ApiProperty({ enum: FUNCTIONS, isArray: true, uniqueItems: true })
  lacks!: FunctionName[];
}

export class TrunkDto {
  /** Its code. @example "A" */
  @ApiProperty({ minLength: 1, maxLength: 20 })
  trunk!: string;

  /** @example "North wing" */
  name!: string;

  /** The head-end's port that it starts from. @example "1" */
  port!: string | null;

  /** In order along the trunk. */
  nodes!: NodeDto[];
}

/** One version of a site's as-built record; version 0 is the one before anything was drawn. */
export class AsBuiltDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;
  /** Goes up with each change; the ETag. */
  version!: number;
  changedBy!: string | null;
  changedAt!: Date | null;
  reason!: string | null;
  headEnd!: HeadEndDto;
  /** By code, numbers in it by size. */
  trunks!: TrunkDto[];
}

class GivenNodeDto extends IntersectionType(
  PickType(NodeDto, ['node']),
  PartialType(OmitType(NodeDto, ['node', 'cableMetres'])),
) {
  /** In metres to the centimetre; not known, and it will be a typical one and `isLengthGuessed`. */
  @ApiProperty({ exclusiveMinimum: 0, maximum: 2000 } as object)
  cableMetres?: number | null;
}

class GivenTrunkDto extends IntersectionType(
  PickType(TrunkDto, ['trunk']),
  PartialType(PickType(TrunkDto, ['name', 'port'])),
) {
  /** In order along the trunk; at least one station. */
  nodes!: GivenNodeDto[];
}

class GivenHeadEndDto extends PartialType(HeadEndDto) {}

class ChangeNoteDto {
  /** Who changed it. */
  @ApiProperty({ minLength: 1, maxLength: 200, example: 'Ilvo Marsh' })
  changedBy!: string;

  /** Why. */
  @ApiProperty({ minLength: 1, maxLength: 500, example: 'Unit in Room 12 replaced' })
  reason!: string;
}

/** The whole record as it is to be; at most 5,000 nodes. */
export class PutAsBuiltDto extends ChangeNoteDto {
  headEnd!: GivenHeadEndDto;
  trunks!: GivenTrunkDto[];
}

/** A merge patch (RFC 7396) of one node; its code stays. */
export class PatchNodeDto extends IntersectionType(
  ChangeNoteDto,
  PartialType(OmitType(GivenNodeDto, ['node'])),
) {}

export class AsBuiltQueryDto {
  /** Which version; left out: the current one. */
  @IsOptional()
  @Type(() => Number)
  @Max(MOST_VERSION)
  @Min(0)
  @IsInt()
  version?: number;
}

export class CompareQueryDto {
  @Type(() => Number)
  @Max(MOST_VERSION)
  @Min(0)
  @IsInt()
  from!: number;

  @Type(() => Number)
  @Max(MOST_VERSION)
  @Min(0)
  @IsInt()
  to!: number;
}

export class AsBuiltVersionDto {
  version!: number;
  changedBy!: string;
  changedAt!: Date;
  reason!: string;
}

export class AsBuiltVersionPageDto {
  /** Newest first. */
  items!: AsBuiltVersionDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
