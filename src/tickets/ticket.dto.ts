import { ApiProperty } from '@nestjs/swagger';
import { Transform, Type } from 'class-transformer';
import { IsBoolean, IsIn, IsInt, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { PageQueryDto } from '../shared/page.dto.js';
import { type Answer, ANSWERS } from '../reports/ask-first.js';
import { PointDto } from '../reports/report.dto.js';
import { ReadingDto } from '../readings/reading.dto.js';
import { TICKET_STATES, type TicketState } from './ticket-lifecycle.js';

const MOST_NUMBER = 2_147_483_647;

const isTrueOrFalse = (value: unknown) => value === 'true' || value === 'false';

const TICKET_SORTS = ['newest', 'time-left'] as const;

export class TicketQueryDto extends PageQueryDto {
  /** `time-left`: open tickets alone, what is due first at the top; what is paused or was not promised comes last. */
  @IsOptional()
  @IsIn(TICKET_SORTS)
  sort: (typeof TICKET_SORTS)[number] = 'newest';

  /** Only tickets of this site. */
  @IsOptional()
  @IsUUID()
  site?: string;

  /** Only the ticket that people call by this number. */
  @IsOptional()
  @Type(() => Number)
  @Max(MOST_NUMBER)
  @Min(1)
  @IsInt()
  number?: number;

  @IsOptional()
  @IsIn(TICKET_STATES)
  state?: TicketState;

  /** `true`: only tickets that are not closed or merged. */
  @IsOptional()
  @Transform(({ value }: { value: unknown }) => (isTrueOrFalse(value) ? value === 'true' : value))
  @IsBoolean()
  open?: boolean;
}

/** Something the office can look at that may spare the visit. */
export class QuestionDto {
  /**
   * Name to answer it by.
   * @example "head-end-on"
   */
  question!: string;

  /** @example "Is the cabinet in the office switched on, with its lamp lit?" */
  text!: string;

  @ApiProperty({ enum: [...ANSWERS, null], type: String, nullable: true })
  answer!: Answer | null;

  /** Said when the answer may well be the whole fault. */
  advice!: string | null;
}

/** A ticket in a few words. */
export class TicketSummaryDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** What people call it by. */
  number!: number;

  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  @ApiProperty({ enum: TICKET_STATES })
  state!: TicketState;

  /** The as-built record that was true when it was opened. */
  asBuiltVersion!: number;

  openedBy!: string;
  openedAt!: Date;
  closedAt!: Date | null;

  /** The ticket that has its reports now. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  mergedInto!: string | null;

  /** Mended for the time being only: a visit is due by this day. */
  @ApiProperty({ format: 'date', type: String, nullable: true })
  followUpDueOn!: string | null;

  /** Why it cannot wait, as was said last; null where nobody said so. */
  urgentReason!: string | null;

  /** Goes up with each change; the ETag. */
  version!: number;
}

/** Where the trouble most likely lies. */
export class LikeliestPlaceDto {
  /** @example "between Room 12 and Room 13 on trunk A, 83 %" */
  words!: string;

  probability!: number;
}

/** What is due next on a ticket by its contract. */
export class NextPromiseDto {
  /** Somebody on site, or working again. */
  @ApiProperty({ enum: ['response', 'restore'] })
  promise!: 'response' | 'restore';

  @ApiProperty({ enum: ['running', 'paused', 'breached'] })
  state!: 'running' | 'paused' | 'breached';

  /** Null while it is paused. */
  dueAt!: Date | null;
}

/** A ticket as the list shows it. */
export class ListedTicketDto extends TicketSummaryDto {
  /** As it was worked out after the last change, a few seconds late; null where nothing was. */
  @ApiProperty({ type: LikeliestPlaceDto, nullable: true })
  likeliest!: LikeliestPlaceDto | null;

  /** As it was reckoned last, moments late; null where nothing is due. `GET /tickets/{ticketId}/clock` tells all. */
  @ApiProperty({ type: NextPromiseDto, nullable: true })
  nextPromise!: NextPromiseDto | null;
}

/** A function that was said not to work where the record says that it cannot. */
export class SetAsideDto extends PointDto {
  /** The unit is bridged over or taken out; otherwise it was never fitted for the function. */
  isOut!: boolean;

  /** @example "Room 109 is bridged over or taken out, the record says: nothing is asked of it" */
  words!: string;
}

/** A ticket with what there is to do about it. */
export class TicketDto extends TicketSummaryDto {
  /** The states it can go to. */
  @ApiProperty({ enum: TICKET_STATES, isArray: true })
  moves!: readonly TicketState[];

  /** The trunks on which something does not work; reports about them join this ticket. */
  trunks!: string[];

  /** What needs no visit, to be asked before anybody is sent. */
  askFirst!: QuestionDto[];

  /** Reported functions that no walk test has shown to work again. */
  stillToProve!: PointDto[];

  /** Those of them that were last said to work, though not on a walk test. */
  saidToWork!: PointDto[];

  /** What was reported though the record says that the unit there is out, or lacks it: nothing is asked of it. */
  setAside!: SetAsideDto[];

  /** Numbers read off a meter, oldest first. */
  readings!: ReadingDto[];
}

export class TicketPageDto {
  items!: ListedTicketDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
