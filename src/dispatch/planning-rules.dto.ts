import { ApiProperty, PartialType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsInt,
  IsNumber,
  IsObject,
  IsUUID,
  Max,
  Min,
  ValidateNested,
} from 'class-validator';

const MAX_ROADS = 300;
const LONGEST_DAY = 24 * 60;

/** The way by road between two sites. */
export class RoadBetweenDto {
  @IsUUID(undefined, { each: true })
  @ArrayUnique()
  @ArrayMinSize(2)
  @ArrayMaxSize(2)
  @IsArray()
  @ApiProperty({ type: [String], format: 'uuid', minItems: 2, maxItems: 2 })
  siteIds!: [string, string];

  @Max(2000)
  @Min(0)
  @IsNumber()
  km!: number;
}

/** How the firm reckons ways and lengths. */
export class PlanningRulesFieldsDto {
  /** Roads are longer than the straight way by this factor. */
  @Max(5)
  @Min(1)
  @IsNumber()
  detourFactor!: number;

  @Max(150)
  @Min(5)
  @IsNumber()
  kmPerHour!: number;

  /** For each way between two places: parking, signing in, carrying tools. */
  @Max(120)
  @Min(0)
  @IsInt()
  minutesEachWay!: number;

  /** A promised visit, where nobody said how long it takes. */
  @Max(LONGEST_DAY)
  @Min(1)
  @IsInt()
  upkeepMinutes!: number;

  /** A call-out for which no walk could be reckoned. */
  @Max(LONGEST_DAY)
  @Min(1)
  @IsInt()
  callOutMinutes!: number;

  /** What it weighs to send somebody else than was planned, in minutes of travel. */
  @Max(LONGEST_DAY)
  @Min(0)
  @IsInt()
  movedMinutes!: number;

  /** Where the road is known, it goes before the straight way. */
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => RoadBetweenDto)
  @ArrayMaxSize(MAX_ROADS)
  @IsArray()
  @ApiProperty({ type: [RoadBetweenDto], default: [] })
  roads: RoadBetweenDto[] = [];
}

/** A merge patch (RFC 7396): what is left out stays. */
export class PatchPlanningRulesDto extends PartialType(PlanningRulesFieldsDto) {}

export class PlanningRulesDto extends PlanningRulesFieldsDto {
  /** Goes up with each change; the ETag. 0: the usual ones, which nobody changed. */
  version!: number;
}
