import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  IsNotEmpty,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  MaxLength,
  ValidateNested,
} from 'class-validator';
import { IsInstant } from '../shared/is-instant.js';
import type { InformantKind } from '../locator/index.js';
import { LocateReadingDto } from './locate-reading.dto.js';
import { InformantDto } from '../reports/report.dto.js';
import { WithdrawalDto } from '../reports/withdrawal.dto.js';

/** A number that somebody read off a meter. */
export class TakeReadingDto {
  /** Your own id for it, a UUID; sending the same again is then safe. */
  @IsOptional()
  @IsUUID()
  id?: string;

  /** Who read it. */
  @Type(() => InformantDto)
  @ValidateNested()
  @IsNotEmpty()
  @ApiProperty({ type: InformantDto })
  takenBy!: InformantDto;

  /** When it was so; left out: now. */
  @IsOptional()
  @IsInstant()
  takenAt?: Date;

  /**
   * What was read and where, by the codes of the ticket's as-built record. The last one that somebody takes of the same
   * thing stands for those before it.
   */
  @IsObject()
  @ApiProperty({ type: LocateReadingDto })
  reading!: object;

  /** Anything else that was said. */
  @IsOptional()
  @MaxLength(5000)
  @IsString()
  note?: string | null = null;
}

/** A reading of a ticket. */
export class TicketReadingDto {
  /** Of its entry in the log, too. */
  @ApiProperty({ format: 'uuid' })
  id!: string;

  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  reading!: LocateReadingDto;
  takenBy!: string;

  @ApiProperty({ enum: ['office', 'technician'] })
  takenByKind!: InformantKind;

  takenAt!: Date;
  recordedAt!: Date;
  /** Which period between mendings it belongs to, from 0. */
  period!: number;

  /** Who withdrew it, when and why: it is no evidence any more. Null where nobody did. */
  @ApiProperty({ type: WithdrawalDto, nullable: true })
  withdrawal!: WithdrawalDto | null;
}

export class TicketReadingListDto {
  /** Oldest first. */
  items!: TicketReadingDto[];
}
