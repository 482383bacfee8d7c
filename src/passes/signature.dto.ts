import { ApiProperty } from '@nestjs/swagger';
import { IsOptional, IsString, IsUUID, MaxLength } from 'class-validator';
import { IsInstant } from '../shared/is-instant.js';
import { IsName } from '../shared/is-name.js';
import { IsPenPath } from '../shared/is-pen-path.js';

/** Somebody of the site signs for the work of a visit. */
export class SignDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;

  /**
   * Who signs.
   * @example "Mara Quill, school office"
   */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  /** What the signer wants to be kept with it. */
  @IsOptional()
  @MaxLength(2000)
  @IsString()
  remark: string | null = null;

  /**
   * When it was signed, where a technician's phone could send it only later; now, where it is left out. Not before the visit
   * began, but for the ten minutes by which clocks may differ.
   */
  @IsOptional()
  @IsInstant()
  signedAt?: Date;

  /**
   * The signature as it was drawn by hand, beside the name: strokes in a box of 600 by 200, in whole numbers, at most 12,000
   * characters.
   * @example "M20 150L60 40L90 160M120 90L300 110"
   */
  @IsOptional()
  @IsPenPath()
  drawn?: string | null = null;
}

export class SignatureDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  visitId!: string;

  /** The version of the visit that was signed for. */
  visitVersion!: number;
  name!: string;
  remark!: string | null;

  /** Strokes in a box of 600 by 200, which are also the path of an SVG; null: the name alone was typed. */
  drawn!: string | null;
  signedAt!: Date;

  /** Whose phone it was signed on, where a technician handed theirs over; null: by the site's pass, or by its own account. */
  takenBy!: string | null;
}

export class SignatureListDto {
  /** Oldest first. */
  items!: SignatureDto[];
}
