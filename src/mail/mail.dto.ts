import { ApiProperty } from '@nestjs/swagger';

export class MailDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  recipient!: string;
  subject!: string;
  /** Null once it is sent. */
  text!: string | null;
  createdAt!: Date;
  sentAt!: Date | null;
  /** Why the mail server did not take it. */
  failure!: string | null;
  /** Whether it was tried as often as it may be, so that nobody tries it any more. */
  isGivenUp!: boolean;
}

export class MailPageDto {
  /** Newest first. */
  items!: MailDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
