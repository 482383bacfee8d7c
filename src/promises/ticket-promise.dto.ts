import { ApiProperty } from '@nestjs/swagger';
import { IsIn, IsNotEmpty, IsOptional, IsString, MaxLength } from 'class-validator';
import { RemarkedDto, SaidDto } from '../reports/report.dto.js';
import { TROUBLE_CLASSES, type TroubleClass } from '../contracts/class-of-trouble.js';
import { PAUSE_REASONS, type PauseReason } from './promise-clock.js';
import type { NoClock, PromiseState } from './ticket-clock.js';
import { PROMISE_KINDS, type PromiseKind } from '../contracts/contract-kinds.js';

/** The clock stops, from the instant that it is said to have been so. */
export class PauseDto extends SaidDto {
  @IsIn(PAUSE_REASONS)
  reason!: PauseReason;

  /** What shows it. @example "Gate locked at 9:10, photo; caretaker not reached at 0555 0301" */
  @MaxLength(2000)
  @IsNotEmpty()
  @IsString()
  evidence!: string;
}

/** The clock goes on. */
export class ResumeDto extends RemarkedDto {}

export class TroubleClassDto extends SaidDto {
  /** Null: what the evidence and the causes say. */
  @IsOptional()
  @IsIn(TROUBLE_CLASSES)
  @ApiProperty({ enum: [...TROUBLE_CLASSES, null], type: String, nullable: true })
  troubleClass: TroubleClass | null = null;

  @MaxLength(2000)
  @IsNotEmpty()
  @IsString()
  reason!: string;
}

export class BreachCauseDto extends SaidDto {
  @IsIn(PROMISE_KINDS)
  promise!: PromiseKind;

  /** @example "The only technician was at another site whose whole system was silent" */
  @MaxLength(2000)
  @IsNotEmpty()
  @IsString()
  cause!: string;
}

/** A fact of how it was reckoned; its members depend on the kind. */
export class ClockLineDto {
  @ApiProperty({ enum: ['counted', 'closed', 'paused', 'further'] })
  kind!: string;

  words!: string;

  /** The fact: instants in RFC 3339, days, minutes. */
  @ApiProperty({ type: Object, additionalProperties: true })
  fact!: object;
}

export class PromiseClockDto {
  @ApiProperty({ enum: PROMISE_KINDS })
  promise!: PromiseKind;

  promisedMinutes!: number;

  @ApiProperty({ enum: ['running', 'paused', 'met', 'breached'] })
  state!: PromiseState;

  /** Null while it is paused, and where the hours do not open for more than two years. */
  dueAt!: Date | null;

  /** Covered minutes that are left; null where it was met or breached. */
  minutesLeft!: number | null;

  /** When a breach is near; null when it is done. */
  warnAt!: Date | null;

  doneAt!: Date | null;

  /** Covered minutes until it was done, or until now. */
  minutesTaken!: number;

  /** Why it was breached, as somebody said. */
  cause!: string | null;

  /** How it was reckoned, line by line. */
  lines!: ClockLineDto[];

  /** All of it in one sentence. */
  words!: string;
}

export class ClockPauseDto {
  from!: Date;
  /** Null while it lasts. */
  until!: Date | null;

  @ApiProperty({ enum: PAUSE_REASONS })
  reason!: PauseReason;
  evidence!: string;

  /** Whoever said that it stands still. */
  @ApiProperty({ type: String, nullable: true })
  saidBy!: string | null;
}

/** What was promised for a ticket, and how long there is. */
export class TicketClockDto {
  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  /** Time zone of the hours. */
  zone!: string;

  /** The contract in force when it was reported. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  contractId!: string | null;
  contractTitle!: string | null;

  /** When the trouble was reported, as it was said: the clocks run from here. */
  reportedAt!: Date;

  /** When that was written down. */
  recordedAt!: Date;

  @ApiProperty({ enum: TROUBLE_CLASSES })
  troubleClass!: TroubleClass;

  /** What the evidence and the causes say, whatever was said instead. */
  @ApiProperty({ enum: TROUBLE_CLASSES })
  computedClass!: TroubleClass;
  overrideReason!: string | null;

  pauses!: ClockPauseDto[];
  promises!: PromiseClockDto[];

  /** Why no clock runs. */
  @ApiProperty({
    enum: ['merged', 'no-contract', 'nothing-promised', null],
    type: String,
    nullable: true,
  })
  none!: NoClock | null;
}

/** A ticket with its clocks. */
export class ContractClockDto {
  number!: number;

  @ApiProperty({ format: 'uuid' })
  siteId!: string;
  clock!: TicketClockDto;
}

export class ContractClocksDto {
  /** Newest first; the newest 200. */
  items!: ContractClockDto[];

  /** There are more. */
  isCutOff!: boolean;
}
