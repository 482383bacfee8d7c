import { ApiProperty, PartialType } from '@nestjs/swagger';
import {
  IsBoolean,
  IsNumber,
  IsOptional,
  IsString,
  IsTimeZone,
  IsUUID,
  Max,
  MaxLength,
  Min,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { PageQueryDto } from '../shared/page.dto.js';

/** What is said about a site; what is installed there is its as-built record. */
export class SiteFieldsDto {
  /** Whose site it is. */
  @ApiProperty({ format: 'uuid' })
  @IsUUID()
  clientId!: string;

  /** @example "Larkfield Lower School" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  /** @example "4 Sluice Lane, Larkfield" */
  @IsOptional()
  @MaxLength(500)
  @IsString()
  address: string | null = null;

  /**
   * Time zone of the site's hours, an IANA name.
   * @example "Europe/Lisbon"
   */
  @IsTimeZone({ message: 'zone must be an IANA time zone such as Europe/Lisbon' })
  zone!: string;

  /** Degrees north; given with the longitude or not at all. */
  @IsOptional()
  @Max(90)
  @Min(-90)
  @IsNumber()
  latitude: number | null = null;

  /** Degrees east. */
  @IsOptional()
  @Max(180)
  @Min(-180)
  @IsNumber()
  longitude: number | null = null;

  /**
   * What whoever goes there must know.
   * @example "Asbestos ceiling in block C: do not drill."
   */
  @IsOptional()
  @MaxLength(4000)
  @IsString()
  safetyNotes: string | null = null;

  /** Whether the system also serves evacuation or emergency calls. */
  @IsBoolean()
  servesEmergencyCalls: boolean = false;
}

export class CreateSiteDto extends SiteFieldsDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  id?: string;
}

/** A merge patch (RFC 7396): what is left out stays, null removes. */
export class PatchSiteDto extends PartialType(SiteFieldsDto) {}

export class SiteQueryDto extends PageQueryDto {
  /** Only sites of this client. */
  @ApiProperty({ format: 'uuid' })
  @IsOptional()
  @IsUUID()
  client?: string;
}

export class SiteDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  @ApiProperty({ format: 'uuid' })
  clientId!: string;
  name!: string;
  address!: string | null;
  zone!: string;
  latitude!: number | null;
  longitude!: number | null;
  safetyNotes!: string | null;
  servesEmergencyCalls!: boolean;
  /** Goes up with each change; the ETag. */
  version!: number;
  /** The current version of the site's as-built record; 0 while nothing is drawn. */
  asBuiltVersion!: number;
  createdAt!: Date;
}

export class SitePageDto {
  items!: SiteDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
