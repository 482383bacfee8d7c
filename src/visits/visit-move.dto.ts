import { ApiProperty } from '@nestjs/swagger';
import {
  ArrayUnique,
  IsArray,
  IsIn,
  IsInt,
  IsOptional,
  IsString,
  IsUUID,
  Max,
  MaxLength,
  Min,
} from 'class-validator';
import { VisitWithdrawalDto } from '../reports/withdrawal.dto.js';
import { IsName } from '../shared/is-name.js';
import { IsInstant } from '../shared/is-instant.js';
import { VisitChangeDto } from './visit-time.dto.js';
import { VISIT_STATES, type VisitState } from './visit-lifecycle.js';

const ASKED_AT_THE_END = ['not-all-heard'] as const;

/** Where somebody takes a visit. */
export class MoveVisitDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  @ApiProperty({ format: 'uuid', required: false })
  id?: string;

  @IsIn(VISIT_STATES)
  to!: VisitState;

  /** When it was so; left out: now. */
  @IsOptional()
  @IsInstant()
  at?: Date;

  /**
   * Who says so.
   * @example "Ilvo Marsh"
   */
  @MaxLength(200)
  @IsName()
  @IsString()
  by!: string;

  /** What was done on the visit; needed to be done. */
  @IsOptional()
  @MaxLength(10_000)
  @IsString()
  workDone: string | null = null;

  /** There and back; said when it is done, what it costs goes by it. */
  @IsOptional()
  @Max(2880)
  @Min(0)
  @IsInt()
  travelMinutes: number | null = null;

  /** What was asked about and is meant so: a walk test that left rooms out. */
  @ArrayUnique()
  @IsIn(ASKED_AT_THE_END, { each: true })
  @IsArray()
  @ApiProperty({ enum: ASKED_AT_THE_END, isArray: true, default: [] })
  confirmed: (typeof ASKED_AT_THE_END)[number][] = [];

  /** Why, above all for what did not go as planned. */
  @IsOptional()
  @MaxLength(2000)
  @IsString()
  reason: string | null = null;
}

/** A move that was made. */
export class VisitMoveDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  visitId!: string;

  @ApiProperty({ enum: VISIT_STATES })
  fromState!: VisitState;

  @ApiProperty({ enum: VISIT_STATES })
  toState!: VisitState;

  movedBy!: string;
  movedAt!: Date;
  recordedAt!: Date;
  reason!: string | null;
  workDone!: string | null;
  /** The version that the visit had after it. */
  visitVersion!: number;
}

export class VisitMoveListDto {
  /** Oldest first. */
  items!: VisitMoveDto[];

  /** When it was moved to another time and why, and which tickets no longer want it. */
  changes!: VisitChangeDto[];

  /** Readings, looks and walk tests of it that were taken back, as recorded. */
  withdrawals!: VisitWithdrawalDto[];

  /** Whether older ones are left out: of each of these the newest 500 are told. */
  hasOlder!: boolean;
}
