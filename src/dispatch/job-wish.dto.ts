import { ApiProperty } from '@nestjs/swagger';
import {
  ArrayMaxSize,
  ArrayUnique,
  IsArray,
  IsInt,
  IsOptional,
  IsString,
  IsUUID,
  Max,
  MaxLength,
  Min,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';

/** What people want of a job. */
export class JobWishFieldsDto {
  /** Who does it, whatever else would be shorter. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', type: String, nullable: true, default: null })
  pinnedTo: string | null = null;

  /** Who does not. */
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  @ArrayMaxSize(50)
  @IsArray()
  @ApiProperty({ type: [String], format: 'uuid', default: [] })
  notBy: string[] = [];

  /** How long it takes; null: as reckoned. */
  @IsOptional()
  @Max(24 * 60)
  @Min(1)
  @IsInt()
  @ApiProperty({ type: Number, nullable: true, default: null })
  minutes: number | null = null;

  /** What whoever does it must be able to do. */
  @MaxLength(60, { each: true })
  @IsName({ each: true })
  @IsString({ each: true })
  @ArrayMaxSize(30)
  @IsArray()
  @ApiProperty({ type: [String], default: [] })
  skills: string[] = [];

  /** Why, in the words of whoever wants it. */
  @IsOptional()
  @MaxLength(500)
  @IsString()
  @ApiProperty({ type: String, nullable: true, maxLength: 500, default: null })
  reason: string | null = null;
}

export class JobWishDto extends JobWishFieldsDto {
  /** The visit, or the ticket that nobody visits yet. */
  @ApiProperty({ format: 'uuid' })
  jobId!: string;

  /** Goes up with each change; the ETag. 0: nothing is wanted. */
  version!: number;
}
