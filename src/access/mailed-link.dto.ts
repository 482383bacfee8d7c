import { ApiProperty } from '@nestjs/swagger';
import {
  IsEmail,
  IsIn,
  IsNotEmpty,
  IsOptional,
  IsString,
  IsUUID,
  MaxLength,
} from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { EndTokensDto } from './password.dto.js';
import { PERSON_ROLES, type PersonRole } from '../people/roles.js';

export class InviteDto {
  /** @example "Runa Feld" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  /** @example "runa.feld@firm.example" */
  @MaxLength(320)
  @IsEmail()
  email!: string;

  @IsIn(PERSON_ROLES)
  @ApiProperty({ enum: PERSON_ROLES })
  role!: PersonRole;

  /** With the role `client`: whose person it is. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', type: String, nullable: true, default: null })
  clientId: string | null = null;
}

export class InvitedDto {
  @ApiProperty({ format: 'uuid' })
  personId!: string;

  /** Why others may not reach the link that was mailed; null where it is as it should be. */
  linkWarning!: string | null;
}

export class RequestResetDto {
  @MaxLength(320)
  @IsNotEmpty()
  @IsString()
  email!: string;
}

export class PasswordFromLinkDto extends EndTokensDto {
  /** What stands behind the # of the link that was mailed. */
  @MaxLength(100)
  @IsNotEmpty()
  @IsString()
  link!: string;

  @MaxLength(1000)
  @IsString()
  password!: string;
}
