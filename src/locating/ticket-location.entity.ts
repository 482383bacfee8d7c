import { Column, Entity, ForeignKey } from 'typeorm';
import { FirmRow } from '../database/firm-row.js';
import type { CheckToMakeDto } from './checks.dto.js';
import type { KeptPlace } from './ticket-answer.js';
import type { PredictedPlace } from './place-chances.js';

/** Where a ticket's trouble lies, as it was worked out last; its id is the ticket's. */
@Entity('ticket_locations')
@ForeignKey('Ticket', ['firmId', 'id'], ['firmId', 'id'])
export class TicketLocation extends FirmRow {
  /** Of all that it was worked out from. */
  @Column('text')
  fingerprint!: string;

  /** When that was read, by the clock of the database. */
  @Column('timestamptz')
  readAt!: Date;

  @Column('timestamptz')
  workedOutAt!: Date;

  /** The likeliest, each with the components that may be its cause; `json`, which keeps what is written to the byte. */
  @Column('json')
  places!: KeptPlace[];

  @Column('json')
  officeChecks!: CheckToMakeDto[];

  @Column('json')
  predicted!: PredictedPlace[];

  /** The whole answer in JSON; null where it is too long to keep. */
  @Column('text', { nullable: true })
  answer!: string | null;
}

/** Who works out a ticket's location, as far as that it is somebody; its id is the ticket's. */
@Entity('location_claims')
@ForeignKey('Ticket', ['firmId', 'id'], ['firmId', 'id'])
export class LocationClaim extends FirmRow {
  /** Of all that it is worked out from. */
  @Column('text')
  fingerprint!: string;

  /** Whoever has not kept it by then is taken for dead. */
  @Column('timestamptz')
  claimedUntil!: Date;
}
