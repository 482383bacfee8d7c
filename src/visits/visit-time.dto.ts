import { ApiProperty } from '@nestjs/swagger';
import { ArrayUnique, IsArray, IsIn, IsOptional, IsString, MaxLength } from 'class-validator';

/** What is asked about before it is done: the day went by; whoever goes is elsewhere then; the day or hours were not agreed. */
export const ASKED_ABOUT = ['in-the-past', 'double-booked', 'outside-hours'] as const;

export type AskedAbout = (typeof ASKED_ABOUT)[number];

/** What goes along with a change of a visit and is not the visit's own. */
export class VisitChangeNotesDto {
  /** What was asked about and is meant so. */
  @ArrayUnique()
  @IsIn(ASKED_ABOUT, { each: true })
  @IsArray()
  @ApiProperty({ enum: ASKED_ABOUT, isArray: true, default: [] })
  confirmed: AskedAbout[] = [];

  /** Why it is moved to another day or other hours; needed for that. */
  @IsOptional()
  @MaxLength(2000)
  @IsString()
  reason: string | null = null;
}

/** The visit was moved to another time, or a ticket no longer wants it. */
export class VisitChangeDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  changedAt!: Date;
  reason!: string;

  @ApiProperty({ format: 'date' })
  wasOn!: string;
  wasFromTime!: string | null;
  wasUntilTime!: string | null;

  @ApiProperty({ format: 'date' })
  on!: string;
  fromTime!: string | null;
  untilTime!: string | null;

  /** The ticket that no longer wants it. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  ticketId!: string | null;

  /** The version that the visit had after it. */
  visitVersion!: number;
}
