import { ApiProperty } from '@nestjs/swagger';
import { WithdrawalDto } from './withdrawal.dto.js';

/** One thing heard or not, and who says so. */
export class ObservationDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** The log entry that brought it. */
  @ApiProperty({ format: 'uuid' })
  entryId!: string;

  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  trunk!: string;
  node!: string;
  function!: string;
  outcome!: string;

  /** The node below which the cable was disconnected meanwhile; null: the trunk was whole. */
  disconnectedBelow!: string | null;

  saidBy!: string;
  saidByKind!: string;
  /** How it came about. */
  how!: string;
  observedAt!: Date;
  /** Which period between mendings it belongs to, from 0. */
  period!: number;

  /** Who withdrew it, when and why: it is no evidence any more. Null where nobody did. */
  @ApiProperty({ type: WithdrawalDto, nullable: true })
  withdrawal!: WithdrawalDto | null;
}

export class ObservationPageDto {
  items!: ObservationDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
