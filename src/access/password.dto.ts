import { IsString, MaxLength } from 'class-validator';

export class ChangePasswordDto {
  @MaxLength(1000)
  @IsString()
  currentPassword!: string;

  /** At least 12 characters; a few words that nobody would put together do well. */
  @MaxLength(1000)
  @IsString()
  newPassword!: string;
}
