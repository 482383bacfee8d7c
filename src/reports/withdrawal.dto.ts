import { ApiProperty } from '@nestjs/swagger';
import { IsString, Matches, MaxLength } from 'class-validator';
import type { InformantKind } from '../plan/error-rates.js';
import { SaidDto } from './report.dto.js';
import type { WithdrawnOnVisit } from './withdrawal.js';

/** Takes back what was entered in the wrong place. */
export class WithdrawDto extends SaidDto {
  /**
   * Why.
   * @example "Read in Room 5, entered for Room 4"
   */
  @MaxLength(2000)
  @Matches(/\S/, { message: 'should not be empty' })
  @IsString()
  reason!: string;
}

/** The entry of a ticket’s log, or of a visit’s, that withdrew something. */
export class WithdrawalDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  saidBy!: string;

  @ApiProperty({ enum: ['office', 'technician', null], type: String, nullable: true })
  saidByKind!: InformantKind | null;

  happenedAt!: Date;
  recordedAt!: Date;
  reason!: string;
}

/** What was taken back on a visit. */
export class VisitWithdrawalDto extends WithdrawalDto {
  @ApiProperty({ format: 'uuid' })
  visitId!: string;

  @ApiProperty({ enum: ['reading', 'look', 'walk-test'] })
  what!: WithdrawnOnVisit;

  /** The reading, look or walk test. */
  @ApiProperty({ format: 'uuid' })
  withdrawnId!: string;
}
