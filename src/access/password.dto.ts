import { IsBoolean, IsOptional, IsString, MaxLength } from 'class-validator';
import { ApiTokenDto } from './api-token.dto.js';

export class EndTokensDto {
  /** Whether the tokens that act as me end with the old password. */
  @IsOptional()
  @IsBoolean()
  endTokens: boolean = false;
}

export class ChangePasswordDto extends EndTokensDto {
  @MaxLength(1000)
  @IsString()
  currentPassword!: string;

  /** At least 12 characters; a few words that nobody would put together do well. */
  @MaxLength(1000)
  @IsString()
  newPassword!: string;
}

export class PasswordChangedDto {
  /** What still acts as this person, without a password. */
  tokens!: ApiTokenDto[];
}
