import { IsNotEmpty, IsString, MaxLength } from 'class-validator';

export class BeginSecondStepDto {
  /** Of the account, again. */
  @MaxLength(1000)
  @IsString()
  password!: string;
}

/** For the phone's app; shown this once. */
export class NewSecondStepDto {
  /** To type in, in base 32. */
  secret!: string;
  /** @example "otpauth://totp/Lastheard:runa…" */
  uri!: string;
  /** The URI as a QR code, an SVG image. */
  qrSvg!: string;
}

export class ConfirmSecondStepDto {
  /** @example "492039" */
  @MaxLength(100)
  @IsNotEmpty()
  @IsString()
  code!: string;
}

export class RecoveryCodesDto {
  /** Each signs in once when the phone is gone; shown this once. */
  recoveryCodes!: string[];
}

export class EndSecondStepDto extends BeginSecondStepDto {
  /** Of the phone, or a recovery code. */
  @MaxLength(100)
  @IsNotEmpty()
  @IsString()
  code!: string;
}
