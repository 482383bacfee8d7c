import { ApiProperty } from '@nestjs/swagger';
import { IsOptional, IsString, IsUUID, MaxLength } from 'class-validator';

/** Whose visits a calendar shows: somebody's, or those to a site. */
export class CreateCalendarFeedDto {
  /** Left out with `siteId` too: one's own. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  technicianId?: string;

  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  siteId?: string;
}

export class CalendarFeedDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  technicianId!: string | null;

  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  siteId!: string | null;

  createdAt!: Date;

  /** The name of who made it; null: nobody knows any more. */
  madeBy!: string | null;

  /** When a calendar program last read by it, to ten minutes; null: never yet. */
  @ApiProperty({ type: Date, nullable: true })
  lastReadAt!: Date | null;

  @ApiProperty({ type: Date, nullable: true })
  endedAt!: Date | null;
}

export class NewCalendarFeedDto extends CalendarFeedDto {
  /** For a calendar program; told this once. Whoever has it reads the visits until it is ended. */
  link!: string;
}

export class CalendarFeedListDto {
  items!: CalendarFeedDto[];
}

export class CalendarKeyDto {
  /** What the link ends with. */
  @MaxLength(100)
  @IsString()
  key!: string;
}
