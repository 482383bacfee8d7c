import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsInt, IsNumber, IsOptional, Max, Min } from 'class-validator';
import { WeeklyHoursDto } from '../shared/weekly-hours.dto.js';
import { PROMISE_KINDS, type PromiseKind } from '../contracts/contract-kinds.js';
import { type VisitStanding, VISIT_STANDINGS } from '../contracts/kept-visits.js';
import { FUNCTIONS, type FunctionName } from '../plan/functions.js';
import { TicketClockDto } from '../promises/ticket-promise.dto.js';
import { LanguageQueryDto } from '../shared/language.dto.js';
import { ReliabilityFiguresDto } from './reliability-figures.dto.js';

const MOST_HOURS = 1e7;

export class ReviewQueryDto extends LanguageQueryDto {
  /** Of the contract, 1 the first; left out: the last one that is over, or the first while none is. */
  @IsOptional()
  @Type(() => Number)
  @Max(100)
  @Min(1)
  @IsInt()
  year?: number;

  /** What the firm thinks of the MTBF of a site before this record: hours that it would bet evenly to be exceeded. */
  @IsOptional()
  @Type(() => Number)
  @Max(MOST_HOURS)
  @Min(1)
  @IsNumber()
  evenHours?: number;

  /** Hours that it is 95 % sure are exceeded; both or neither. */
  @IsOptional()
  @Type(() => Number)
  @Max(MOST_HOURS)
  @Min(1)
  @IsNumber()
  sureHours?: number;
}

export class ReviewSiteDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;
  name!: string;
}

export class ReviewSlotDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @ApiProperty({ format: 'date' })
  until!: string;

  @ApiProperty({ enum: VISIT_STANDINGS })
  standing!: VisitStanding;

  @ApiProperty({ format: 'date', type: String, nullable: true })
  visitOn!: string | null;
}

export class ReviewSignatureDto {
  name!: string;
  remark!: string | null;

  /** As it was drawn by hand, in a box of 600 by 200: the path of an SVG. */
  drawn!: string | null;
  signedAt!: Date;
}

/** A visit that was done. */
export class ReviewVisitDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  @ApiProperty({ enum: ['planned', 'call-out'] })
  kind!: 'planned' | 'call-out';

  @ApiProperty({ format: 'date' })
  on!: string;
  technician!: string | null;
  workDone!: string | null;
  minutesOnSite!: number | null;
  travelMinutes!: number | null;

  /** Numbers of the tickets that it was for. */
  tickets!: number[];
  signatures!: ReviewSignatureDto[];
}

export class ReviewFoundDto {
  at!: Date;
  /** Null: nothing was found. */
  words!: string | null;
  note!: string | null;
}

export class ReviewPartDto {
  name!: string;
  quantity!: number;
}

export class ReviewMendedDto {
  at!: Date;

  @ApiProperty({ enum: ['lasting', 'temporary'] })
  mending!: 'lasting' | 'temporary';
  what!: string | null;
  minutes!: number | null;
  parts!: ReviewPartDto[];
}

/** A ticket that was reported in the year and goes by the contract. */
export class ReviewTicketDto {
  number!: number;

  @ApiProperty({ format: 'uuid' })
  siteId!: string;
  state!: string;
  clock!: TicketClockDto;
  found!: ReviewFoundDto[];
  mended!: ReviewMendedDto[];
}

/** How the tickets kept a promise. */
export class ReviewPromiseDto {
  @ApiProperty({ enum: PROMISE_KINDS })
  promise!: PromiseKind;
  met!: number;
  breached!: number;
  /** Neither yet. */
  open!: number;
  /** Of those that are done, covered time; null: none is. */
  meanMinutesTaken!: number | null;
}

/** How much of the covered time a function was there at the rooms of a site. */
export class FunctionHoursDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  @ApiProperty({ enum: FUNCTIONS })
  function!: FunctionName;
  rooms!: number;
  roomHours!: number;
  lostRoomHours!: number;

  /** Null while no covered hour has gone by. */
  available!: number | null;
}

/** A joint or a cable that fails more often than others of its kind. */
export class AdvisedJointDto {
  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  @ApiProperty({ type: Object, additionalProperties: true })
  place!: object;

  @ApiProperty({ enum: ['junction-in', 'junction-out', 'cable'] })
  component!: 'junction-in' | 'junction-out' | 'cable';

  /** What tells it from the others of the site. */
  key!: string;
  words!: string;

  /** Of a failure in the next year, as it is and renewed. */
  chance!: number;
  chanceRenewed!: number;

  /** Failures a year that renewing it spares. */
  gain!: number;

  /** What a call-out costs, and renewing it on a visit that is made anyway; null without prices. */
  failureMinor!: number | null;
  renewalMinor!: number | null;
  paysBackYears!: number | null;
}

/** Mended for the time being. */
export class UnfinishedDto {
  number!: number;

  @ApiProperty({ format: 'uuid' })
  siteId!: string;

  @ApiProperty({ format: 'date', type: String, nullable: true })
  dueOn!: string | null;
}

/** What a client is shown of a year of a contract. */
export class ReviewDto {
  @ApiProperty({ format: 'uuid' })
  contractId!: string;
  title!: string;
  clientName!: string;

  /** ISO 4217, of all amounts. */
  currency!: string;
  year!: number;

  @ApiProperty({ format: 'date' })
  from!: string;

  /** The day after the last. */
  @ApiProperty({ format: 'date' })
  until!: string;

  /** When what is promised runs. */
  coveredHours!: WeeklyHoursDto[];

  /** What happened until then is in it. */
  asOf!: Date;
  sites!: ReviewSiteDto[];

  @ApiProperty({ type: [ReviewSlotDto] })
  promisedVisits!: ReviewSlotDto[];
  visits!: ReviewVisitDto[];
  tickets!: ReviewTicketDto[];

  /** Tickets of its sites in the year that go by another contract or by none. */
  ticketsElsewhere!: number;
  promises!: ReviewPromiseDto[];
  availability!: FunctionHoursDto[];

  /** Null while there is no record. */
  @ApiProperty({ type: ReliabilityFiguresDto, nullable: true })
  reliability!: ReliabilityFiguresDto | null;
  advised!: AdvisedJointDto[];
  unfinished!: UnfinishedDto[];
}
