import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';

export interface NewLocation {
  id: string;
  fingerprint: string;
  readAt: Date;
  workedOutAt: Date;
  /** These in JSON. */
  places: string;
  officeChecks: string;
  predicted: string;
  answer: string | null;
}

@Injectable()
export class TicketLocationRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /** Keeps it unless what was read later is kept already. */
  keep(one: NewLocation): void {
    this.transaction.writeLater(
      `INSERT INTO ticket_locations AS kept
         (id, fingerprint, read_at, worked_out_at, places, office_checks, predicted, answer)
       VALUES ($1, $2, $3, $4, $5, $6, $7, $8)
       ON CONFLICT (firm_id, id) DO UPDATE SET fingerprint = excluded.fingerprint, read_at = excluded.read_at,
         worked_out_at = excluded.worked_out_at, places = excluded.places,
         office_checks = excluded.office_checks, predicted = excluded.predicted, answer = excluded.answer
       WHERE kept.read_at <= excluded.read_at`,
      [
        one.id,
        one.fingerprint,
        one.readAt,
        one.workedOutAt,
        one.places,
        one.officeChecks,
        one.predicted,
        one.answer,
      ],
    );
  }

  /** What was worked out of a ticket is no longer so, and nothing else can be. */
  remove(id: string, readAt: Date): void {
    this.transaction.writeLater('DELETE FROM ticket_locations WHERE id = $1 AND read_at <= $2', [
      id,
      readAt,
    ]);
  }
}
