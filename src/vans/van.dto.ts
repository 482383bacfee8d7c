import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  IsArray,
  IsInt,
  IsObject,
  IsString,
  Max,
  MaxLength,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { MOST_VAN_PARTS } from './van-parts.js';

export class VanPartDto {
  /**
   * As job sheets name it; capitals and hyphens do not matter. A cable with its length: a longer piece does for a shorter one.
   * @example "30 m of trunk cable"
   */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  /** @example 2 */
  @Max(9999)
  @Min(0)
  @IsInt()
  quantity!: number;
}

/** What a technician's van carries. */
export class VanFieldsDto {
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => VanPartDto)
  @ArrayMaxSize(MOST_VAN_PARTS)
  @IsArray()
  @ApiProperty({ type: [VanPartDto], maxItems: MOST_VAN_PARTS })
  parts!: VanPartDto[];
}

export class VanDto extends VanFieldsDto {
  @ApiProperty({ format: 'uuid' })
  personId!: string;

  /** Of the technician. */
  name!: string;

  /** Goes up with each change; the ETag. 0: nobody said anything yet, and plans do not weigh what is missing. */
  version!: number;
}
