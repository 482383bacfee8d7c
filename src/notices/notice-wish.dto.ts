import { ApiProperty } from '@nestjs/swagger';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsIn,
  IsOptional,
  IsString,
  IsUUID,
  MaxLength,
} from 'class-validator';
import { LANGUAGES, type Language } from '../words/index.js';
import { NOTICE_KINDS, NOTICE_WAYS, type NoticeKind, type NoticeWay } from './notice-kinds.js';

/** What to be told of, and how. */
export class CreateNoticeWishDto {
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;

  /** `mail` goes to one's own address; `webhook` is the owner's to ask for. */
  @IsIn(NOTICE_WAYS)
  @ApiProperty({ enum: NOTICE_WAYS })
  way!: NoticeWay;

  @ArrayMinSize(1)
  @ArrayMaxSize(NOTICE_KINDS.length)
  @ArrayUnique()
  @IsIn(NOTICE_KINDS, { each: true })
  @ApiProperty({ enum: NOTICE_KINDS, isArray: true })
  kinds!: NoticeKind[];

  /** Left out: of every site that one has to do with. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  siteId?: string;

  /** Left out: the language of the request. */
  @IsOptional()
  @IsIn(LANGUAGES)
  @ApiProperty({ enum: LANGUAGES, required: false })
  language?: Language;

  /** Where a webhook is sent: https, without a name and a password in it. */
  @IsOptional()
  @MaxLength(2000)
  @IsString()
  url?: string;
}

export class NoticeWishDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  personId!: string;

  @ApiProperty({ enum: NOTICE_WAYS })
  way!: NoticeWay;

  @ApiProperty({ enum: NOTICE_KINDS, isArray: true })
  kinds!: NoticeKind[];

  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  siteId!: string | null;

  @ApiProperty({ enum: LANGUAGES })
  language!: Language;

  @ApiProperty({ type: String, nullable: true })
  url!: string | null;

  createdAt!: Date;

  @ApiProperty({ type: Date, nullable: true })
  endedAt!: Date | null;
}

export class NewNoticeWishDto extends NoticeWishDto {
  /** Of a webhook: what checks its signatures, told this once. Else null. */
  @ApiProperty({ type: String, nullable: true })
  signingSecret!: string | null;
}

export class NoticeWishListDto {
  items!: NoticeWishDto[];
}

export class NoticeDto {
  /** The `webhook-id` of a webhook. */
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ enum: NOTICE_KINDS })
  kind!: NoticeKind;

  createdAt!: Date;

  /** Null: not yet, or never. */
  @ApiProperty({ type: Date, nullable: true })
  sentAt!: Date | null;

  /** Of a webhook. */
  tries!: number;

  /** Why it was not taken when it was tried last. */
  @ApiProperty({ type: String, nullable: true })
  failure!: string | null;
}

export class NoticeListDto {
  /** The newest hundred. */
  items!: NoticeDto[];
}

export class WayOutDto {
  /** What the link in the mail ends with. */
  @MaxLength(100)
  @IsString()
  key!: string;
}
