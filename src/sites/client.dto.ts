import { ApiProperty, PartialType } from '@nestjs/swagger';
import { IsEmail, IsOptional, IsString, IsUUID, MaxLength } from 'class-validator';
import { IsName } from '../shared/is-name.js';

/** What is said about a client: a school, a works, a depot's owner. */
export class ClientFieldsDto {
  /** @example "Orrin Vale schools" */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;

  /**
   * Whom to ask for.
   * @example "Tamsin Roe"
   */
  @IsOptional()
  @MaxLength(200)
  @IsString()
  contactName: string | null = null;

  /** @example "0555 0177" */
  @IsOptional()
  @MaxLength(50)
  @IsString()
  phone: string | null = null;

  /** @example "office@orrinvale.example" */
  @IsOptional()
  @MaxLength(254)
  @IsEmail()
  email: string | null = null;
}

export class CreateClientDto extends ClientFieldsDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  id?: string;
}

/** A merge patch (RFC 7396): what is left out stays, null removes. */
export class PatchClientDto extends PartialType(ClientFieldsDto) {}

export class ClientDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  name!: string;
  contactName!: string | null;
  phone!: string | null;
  email!: string | null;
  /** Goes up with each change; the ETag. */
  version!: number;
  createdAt!: Date;
}

export class ClientPageDto {
  items!: ClientDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
