import { ApiProperty } from '@nestjs/swagger';
import { IsOptional, IsString, IsUUID, Matches, MaxLength } from 'class-validator';
import { IsInstant } from '../shared/is-instant.js';
import { LARGEST_PHOTO, PHOTO_FORMATS, type PhotoFormat } from './photo-format.js';

/** Of the largest picture, in base 64. */
const LONGEST_IMAGE = Math.ceil(LARGEST_PHOTO / 3) * 4;

export class AddPhotoDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;

  /** A JPEG, PNG or WebP, told by its own bytes, of 2,000,000 bytes at most; in base 64 (RFC 4648, section 4). */
  @MaxLength(LONGEST_IMAGE, { message: `must be of ${LARGEST_PHOTO} bytes at most` })
  @Matches(/^[A-Za-z0-9+/]+={0,2}$/, { message: 'must be in base 64' })
  @IsString()
  @ApiProperty({ format: 'byte', maxLength: LONGEST_IMAGE })
  image!: string;

  /** What it shows. */
  @IsOptional()
  @MaxLength(500)
  @IsString()
  caption?: string | null = null;

  /** When it was taken; left out: now. */
  @IsOptional()
  @IsInstant()
  takenAt?: Date;
}

export class WithdrawPhotoDto {
  /**
   * Why. The picture itself is gone then.
   * @example "A pupil is on it"
   */
  @MaxLength(2000)
  @Matches(/\S/, { message: 'should not be empty' })
  @IsString()
  reason!: string;
}

export class PhotoWithdrawalDto {
  by!: string;
  at!: Date;
  reason!: string;
}

export class PhotoDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  ticketId!: string | null;

  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  visitId!: string | null;

  @ApiProperty({ enum: PHOTO_FORMATS })
  format!: PhotoFormat;
  byteCount!: number;
  caption!: string | null;
  takenBy!: string;
  takenAt!: Date;
  recordedAt!: Date;

  /** Until when there is a picture at the latest. */
  keptUntil!: Date;

  /** Null: it was not withdrawn. */
  @ApiProperty({ type: PhotoWithdrawalDto, nullable: true })
  withdrawal!: PhotoWithdrawalDto | null;
}

export class PhotoPageDto {
  /** By when they were taken. */
  items!: PhotoDto[];

  /** Cursor of the next page; null: this was the last. */
  next!: string | null;
}
