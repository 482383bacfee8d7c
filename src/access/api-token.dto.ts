import { ApiProperty } from '@nestjs/swagger';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsIn,
  IsOptional,
  IsString,
  MaxLength,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { IsInstant } from '../shared/is-instant.js';
import { type Scope, SCOPES } from './scopes.js';

export class CreateApiTokenDto {
  /**
   * What it is for.
   * @example "Export to the bookkeeping"
   */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  /** What it may do, within what its maker may do. Writing includes reading. */
  @ArrayUnique()
  @IsIn(SCOPES, { each: true })
  @ArrayMaxSize(SCOPES.length)
  @ArrayMinSize(1)
  @IsArray()
  @ApiProperty({ enum: SCOPES, isArray: true })
  scopes!: Scope[];

  /** Left out: until it is revoked. */
  @IsOptional()
  @IsInstant()
  endsAt: Date | null = null;
}

export class ApiTokenDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** As whom it acts. */
  @ApiProperty({ format: 'uuid' })
  personId!: string;
  name!: string;

  @ApiProperty({ enum: SCOPES, isArray: true })
  scopes!: string[];
  createdAt!: Date;
  lastUsedAt!: Date | null;
  endsAt!: Date | null;
}

export class NewApiTokenDto extends ApiTokenDto {
  /** Shown this once; sent as `Authorization: Bearer …`. */
  token!: string;
}

export class ApiTokenListDto {
  /** Oldest first. */
  items!: ApiTokenDto[];
}
