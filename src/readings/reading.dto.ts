import { ApiProperty } from '@nestjs/swagger';
import { LOOP_CORES } from '../locator/index.js';
import type { InformantKind } from '../plan/error-rates.js';
import { WithdrawalDto } from '../reports/withdrawal.dto.js';
import { ALL_READING_KINDS, type EnteredLoopCore, type ReadingKind } from './entered-reading.js';
import { LocateReadingDto } from './take-reading.dto.js';

/** A number read off a meter, about a ticket or on a visit. */
export class ReadingDto {
  /** Of one about a ticket, also of its entry in the log. */
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** Null on a visit. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  ticketId!: string | null;

  /** Null of one that was taken about a ticket. */
  @ApiProperty({ format: 'uuid', type: String, nullable: true })
  visitId!: string | null;

  @ApiProperty({ enum: ALL_READING_KINDS })
  kind!: ReadingKind;

  trunk!: string | null;

  /** Of a test of continuity, the far end. */
  node!: string | null;

  place!: string | null;

  @ApiProperty({ enum: [...LOOP_CORES, null], type: String, nullable: true })
  core!: EnteredLoopCore | null;

  /** The number as it was typed; null where it was sent as a number. */
  entered!: string | null;

  /** Null of a test that only passes or fails. */
  value!: number | null;
  unit!: string | null;
  uncertainty!: number | null;

  /** As the location of a ticket takes it; null of one that says nothing about where trouble lies. */
  @ApiProperty({ type: LocateReadingDto, nullable: true })
  reading!: LocateReadingDto | null;

  takenBy!: string;

  @ApiProperty({ enum: ['office', 'technician'] })
  takenByKind!: InformantKind;

  takenAt!: Date;
  recordedAt!: Date;

  /** Which period between mendings of its ticket it belongs to, from 0; null on a visit. */
  @ApiProperty({ type: Number, nullable: true })
  period!: number | null;

  note!: string | null;

  /** Who withdrew it, when and why: it is no evidence any more. Null where nobody did. */
  @ApiProperty({ type: WithdrawalDto, nullable: true })
  withdrawal!: WithdrawalDto | null;
}

export class ReadingPageDto {
  items!: ReadingDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
