import { ApiProperty } from '@nestjs/swagger';
import { IsString, MaxLength } from 'class-validator';
import { type PersonRole, ROLES } from './roles.js';

export class ChangePasswordDto {
  @MaxLength(1000)
  @IsString()
  currentPassword!: string;

  /** At least 12 characters; a few words that nobody would put together do well. */
  @MaxLength(1000)
  @IsString()
  newPassword!: string;
}

/** Somebody's sign-in. */
export class AccountDto {
  /** The person's id. */
  @ApiProperty({ format: 'uuid' })
  id!: string;
  email!: string;
  name!: string;

  @ApiProperty({ enum: ROLES.filter((role) => role !== 'pass') })
  role!: PersonRole;

  /** Of a client's person: whose. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  clientId!: string | null;

  /** False as long as the invitation is open. */
  hasPassword!: boolean;
  hasSecondStep!: boolean;
  passwordChangedAt!: Date | null;
  lastSignInAt!: Date | null;
  endedAt!: Date | null;
  createdAt!: Date;
}

export class AccountPageDto {
  items!: AccountDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
