import { ApiProperty } from '@nestjs/swagger';
import type { InformantKind } from '../plan/error-rates.js';
import { ENTRY_KINDS, type EntryDetails, type EntryKind } from './ticket-log.js';

/** One entry of a ticket's log. */
export class TicketEntryDto {
  @ApiProperty({ format: 'uuid' })
  id!: string;

  /** The ticket it was written on; after a merge, not always the one that was asked for. */
  @ApiProperty({ format: 'uuid' })
  ticketId!: string;

  @ApiProperty({ enum: ENTRY_KINDS })
  kind!: EntryKind;

  saidBy!: string;

  @ApiProperty({ enum: ['office', 'technician', null], type: String, nullable: true })
  saidByKind!: InformantKind | null;

  happenedAt!: Date;
  recordedAt!: Date;

  /** What it says; its members depend on the kind. */
  @ApiProperty({ type: Object, additionalProperties: true })
  details!: EntryDetails;
}

export class TicketEntryPageDto {
  items!: TicketEntryDto[];
  /** Cursor of the next page; null on the last. */
  next!: string | null;
}
