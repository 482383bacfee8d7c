import { ApiProperty } from '@nestjs/swagger';
import { IsIn, IsNotEmpty, IsOptional, IsString, IsUUID, MaxLength } from 'class-validator';
import { LANGUAGES, type Language } from '../words/index.js';
import { PERSON_ROLES, type PersonRole } from '../people/roles.js';

export class SignInDto {
  /** @example "runa.feld@firm.example" */
  @MaxLength(320)
  @IsNotEmpty()
  @IsString()
  email!: string;

  @MaxLength(1000)
  @IsString()
  password!: string;

  /** The second step, where the account has one: from the phone, or a recovery code. */
  @IsOptional()
  @MaxLength(100)
  @IsString()
  code?: string;

  /** Whose sign-in is meant, where one e-mail has several and they share a password. */
  @IsOptional()
  @IsUUID()
  firmId?: string;
}

/** Who is signed in. */
export class SignedInPersonDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  name!: string;

  @ApiProperty({ enum: PERSON_ROLES })
  role!: PersonRole;

  /** Of a client's person: whose. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  clientId!: string | null;

  /** In which pages are shown to them; null until they have chosen one. */
  @ApiProperty({ enum: LANGUAGES, nullable: true, type: String })
  language!: Language | null;
}

/** In which language pages are shown to me. */
export class ChooseLanguageDto {
  @IsIn(LANGUAGES)
  @ApiProperty({ enum: LANGUAGES })
  language!: Language;
}

export class SignedInDto {
  @ApiProperty({ format: 'uuid' })
  firmId!: string;
  person!: SignedInPersonDto;

  /** To be sent as X-CSRF-Token with everything that changes something. */
  csrfToken!: string;

  /** However much it is used, the session ends then. */
  endsAt!: Date;
}

/** One of my sessions. */
export class SessionDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  createdAt!: Date;
  lastSeenAt!: Date;
  endsAt!: Date;
  /** The address that signed in. */
  address!: string;
  userAgent!: string;
  /** The one that asks. */
  current!: boolean;
}

export class SessionListDto {
  /** Last used first. */
  items!: SessionDto[];
}
