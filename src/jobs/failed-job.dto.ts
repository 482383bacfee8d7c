import { ApiProperty } from '@nestjs/swagger';

export class FailedJobDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /**
   * What was to be done.
   * @example "mail"
   */
  kind!: string;

  /** What it was about; ids, never a secret. */
  @ApiProperty({ type: 'object', additionalProperties: true })
  data!: object;

  /** When it was given up. */
  failedAt!: Date;

  /** What went wrong the last time. */
  failure!: string | null;
}

export class FailedJobsDto {
  items!: FailedJobDto[];
}
