import { PartialType } from '@nestjs/swagger';
import { IsOptional, IsString, MaxLength } from 'class-validator';
import { IsName } from '../shared/is-name.js';

/** How a firm is known to its clients: on posters and to offices. */
export class FirmFieldsDto {
  /** @example "Orrin Vale Bells" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  /** By which offices ring it. @example "0555 0100" */
  @IsOptional()
  @MaxLength(50)
  @IsString()
  phone: string | null = null;
}

/** A merge patch (RFC 7396): what is left out stays, null removes. */
export class PatchFirmDto extends PartialType(FirmFieldsDto) {}

export class FirmDto extends FirmFieldsDto {
  /** Goes up with each change; the ETag. */
  version!: number;
}
