import { ApiProperty } from '@nestjs/swagger';
import { PERSON_ROLES, type PersonRole } from './roles.js';

/** Somebody's sign-in. */
export class AccountDto {
  /** The person's id. */
  @ApiProperty({ format: 'uuid' })
  id!: string;
  email!: string;
  name!: string;

  @ApiProperty({ enum: PERSON_ROLES })
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
