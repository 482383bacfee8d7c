import { ApiProperty, PartialType } from '@nestjs/swagger';
import { IsIn, IsOptional, IsString, IsUUID, MaxLength } from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { type Work, WORKS } from './roles.js';

/** What is said about a person of the firm. */
export class PersonFieldsDto {
  /** @example "Ilvo Marsh" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  /** What the person does in the firm. */
  @IsIn(WORKS)
  work!: Work;

  /** @example "0555 0142" */
  @IsOptional()
  @MaxLength(50)
  @IsString()
  phone: string | null = null;
}

export class CreatePersonDto extends PersonFieldsDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  id?: string;
}

/** A merge patch (RFC 7396): what is left out stays, null removes. */
export class PatchPersonDto extends PartialType(PersonFieldsDto) {}

export class PersonQueryDto extends PageQueryDto {
  /** Only people who do this work. */
  @IsOptional()
  @IsIn(WORKS)
  work?: Work;
}

export class PersonDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  name!: string;
  work!: Work;
  phone!: string | null;
  /** Goes up with each change; the ETag. */
  version!: number;
  createdAt!: Date;
}

export class PersonPageDto {
  items!: PersonDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
