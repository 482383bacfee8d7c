import { IsEmail, IsNotEmpty, IsString, MaxLength } from 'class-validator';
import { IsName } from '../shared/is-name.js';

/** Whether the first owner is still to be made. */
export class FirstStartDto {
  isOpen!: boolean;
}

export class FirstOwnerDto {
  /** What stands behind the # of the link that the service wrote to its log at the start. */
  @MaxLength(100)
  @IsNotEmpty()
  @IsString()
  code!: string;

  /** @example "Bea Orne" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  /** @example "bea.orne@firm.example" */
  @MaxLength(320)
  @IsEmail()
  email!: string;

  @MaxLength(1000)
  @IsString()
  password!: string;
}
