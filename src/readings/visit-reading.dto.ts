import { ApiProperty } from '@nestjs/swagger';
import {
  IsIn,
  IsNotEmpty,
  IsNumber,
  IsOptional,
  IsString,
  IsUUID,
  MaxLength,
  Min,
} from 'class-validator';
import { IsInstant } from '../shared/is-instant.js';
import { READING_KINDS, type ReadingKind } from './reading-kinds.js';

/** A number read off a meter. Where: a trunk, perhaps its node, or a place in words, or both. */
export class CreateReadingDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;

  @IsIn(READING_KINDS)
  kind!: ReadingKind;

  /** @example "A" */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  trunk: string | null = null;

  /** @example "A12" */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  node: string | null = null;

  /** @example "head-end, terminals of port 1" */
  @IsOptional()
  @MaxLength(200)
  @IsNotEmpty()
  @IsString()
  place: string | null = null;

  /**
   * The number as it is read, with a point or a comma.
   * @example "23.1"
   */
  @MaxLength(30)
  @IsString()
  entered!: string;

  /**
   * Left out: the usual one of the kind. Of `other` it must be given.
   * @example "V"
   */
  @IsOptional()
  @MaxLength(20)
  @IsString()
  unit: string | null = null;

  /** Standard uncertainty in the same unit, where it is known. */
  @IsOptional()
  @Min(0)
  @IsNumber()
  uncertainty: number | null = null;

  /** Left out: now. */
  @IsOptional()
  @IsInstant()
  takenAt?: Date;

  /** @example "Ilvo Marsh" */
  @MaxLength(200)
  @IsNotEmpty()
  @IsString()
  takenBy!: string;

  @IsOptional()
  @MaxLength(2000)
  @IsString()
  note: string | null = null;
}

export class ReadingDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  visitId!: string;

  @ApiProperty({ enum: READING_KINDS })
  kind!: ReadingKind;

  trunk!: string | null;
  node!: string | null;
  place!: string | null;

  /** The number as it was typed. */
  entered!: string;

  value!: number;
  unit!: string;
  uncertainty!: number | null;
  takenAt!: Date;
  takenBy!: string;
  recordedAt!: Date;
  note!: string | null;
}

export class ReadingPageDto {
  items!: ReadingDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
