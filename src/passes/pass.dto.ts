import { ApiProperty, OmitType, PickType } from '@nestjs/swagger';
import { IsNotEmpty, IsString, MaxLength } from 'class-validator';
import { IsName } from '../shared/is-name.js';
import { ContradictionDto } from '../locating/answer.dto.js';
import { CheckToMakeDto } from '../locating/checks.dto.js';
import { PointDto, ReportDto } from '../reports/report.dto.js';
import { QuestionDto } from '../tickets/ticket.dto.js';
import { TICKET_STATES, type TicketState } from '../tickets/ticket-lifecycle.js';
import { TellWorkNearbyDto } from '../history/work-nearby.dto.js';
import { TakeLooksDto } from '../looks/look.dto.js';
import { AnswerDto } from '../tickets/ticket-work.dto.js';
import { VISIT_KINDS, type VisitKind } from '../visits/visit-lifecycle.js';

export class ShowPassDto {
  /** What stands behind the # of the link. */
  @MaxLength(100)
  @IsNotEmpty()
  @IsString()
  pass!: string;
}

export class PassSessionDto {
  /** To be sent as X-CSRF-Token with everything that changes something. */
  csrfToken!: string;
  endsAt!: Date;
}

export class PassRoomDto {
  trunk!: string;
  node!: string;
  room!: string | null;
  block!: string | null;
  floor!: string | null;
  /** Of those that the head-end speaks to together. */
  groups!: string[];
}

/** When somebody comes next, or is there now. */
export class NextVisitDto {
  @ApiProperty({ format: 'date' })
  on!: string;

  /**
   * When it begins by the site's clocks; null: in the course of the day.
   * @example "07:30"
   */
  fromTime!: string | null;

  @ApiProperty({ enum: VISIT_KINDS })
  kind!: VisitKind;

  /** It has begun. */
  isUnderWay!: boolean;
}

/** A visit whose work can be signed for. */
export class VisitToSignDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'date' })
  on!: string;
  workDone!: string | null;
}

export class PassTicketSummaryDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;
  number!: number;

  @ApiProperty({ enum: TICKET_STATES })
  state!: TicketState;
  openedAt!: Date;
}

/** An open ticket in the list of its site. */
export class PassListedTicketDto extends PassTicketSummaryDto {
  /** When somebody comes about it; null: nothing is set yet. */
  @ApiProperty({ type: NextVisitDto, nullable: true })
  nextVisit!: NextVisitDto | null;
}

/** Something of which two people say different things. */
export class PassContradictionDto extends PickType(ContradictionDto, [
  'trunk',
  'node',
  'room',
  'function',
  'words',
] as const) {}

/** An open ticket, as far as the office needs it. */
export class PassTicketDto extends PassTicketSummaryDto {
  /** What is reported and not yet shown to work again. */
  stillToProve!: PointDto[];
  /** Those of them that were last said to work. */
  saidToWork!: PointDto[];
  /** What the office can look at. */
  askFirst!: QuestionDto[];
  /** What is worth doing now, at most three, best first. Empty where nothing is, and where there was no time to work it out. */
  officeChecks!: CheckToMakeDto[];
  /** What one said works and another said does not: to be tried again. Who they are a pass is not told. */
  contradictions!: PassContradictionDto[];
}

/** Who looks after the site. */
export class PassFirmDto {
  name!: string;

  /** Null: the firm has not said one. */
  @ApiProperty({ type: String, nullable: true })
  phone!: string | null;
}

/** What the poster's page needs of its site, and no more. */
export class PassSiteDto {
  name!: string;

  @ApiProperty({ type: PassFirmDto })
  firm!: PassFirmDto;

  /**
   * Of its clocks.
   * @example "Europe/Lisbon"
   */
  zone!: string;
  servesEmergencyCalls!: boolean;
  rooms!: PassRoomDto[];
  tickets!: PassListedTicketDto[];

  @ApiProperty({ type: NextVisitDto, nullable: true })
  nextVisit!: NextVisitDto | null;
  toSign!: VisitToSignDto[];
}

/** Rooms that were heard or silent, said by somebody at the site. */
export class PassReportDto extends OmitType(ReportDto, ['saidBy', 'saidAt'] as const) {
  /**
   * Who says so.
   * @example "Mara Quill"
   */
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;
}

export class PassAnswerDto extends OmitType(AnswerDto, ['saidBy', 'saidAt'] as const) {
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;
}

/** What somebody at the site saw, who opens nothing. */
export class PassLooksDto extends OmitType(TakeLooksDto, ['saidBy', 'saidAt'] as const) {
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;
}

/** Others worked near rooms, said by somebody at the site. */
export class PassWorkNearbyDto extends OmitType(TellWorkNearbyDto, ['saidBy', 'saidAt'] as const) {
  @MaxLength(200)
  @IsName()
  @IsString()
  name!: string;
}

export class PassReportAnswerDto {
  tickets!: PassTicketDto[];
}
