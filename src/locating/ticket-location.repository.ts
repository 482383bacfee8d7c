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

/** Longer than a job's longest work. */
const CLAIMED_FOR = "interval '150 seconds'";

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

  /** Whether it is for whoever asks to work out what was read then: nobody else does, or has since. */
  async claim(id: string, fingerprint: string, readAt: Date): Promise<boolean> {
    const manager = await this.transaction.manager();
    const rows = await manager.query<unknown[]>(
      `INSERT INTO location_claims AS claimed (id, fingerprint, claimed_until)
       VALUES ($1, $2, clock_timestamp() + ${CLAIMED_FOR})
       ON CONFLICT (firm_id, id) DO UPDATE
         SET fingerprint = excluded.fingerprint, claimed_until = excluded.claimed_until
       WHERE claimed.fingerprint <> excluded.fingerprint OR claimed.claimed_until < $3
       RETURNING 1`,
      [id, fingerprint, readAt],
    );
    return rows.length > 0;
  }

  /** With what was worked out: the claim stays for those who read before, until now. */
  endClaim(id: string, fingerprint: string): void {
    this.transaction.writeLater(
      'UPDATE location_claims SET claimed_until = clock_timestamp() WHERE id = $1 AND fingerprint = $2',
      [id, fingerprint],
    );
  }

  async giveUp(id: string, fingerprint: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query('DELETE FROM location_claims WHERE id = $1 AND fingerprint = $2', [
      id,
      fingerprint,
    ]);
  }

  /** What was worked out of a ticket is no longer so, and nothing else can be. */
  remove(id: string, readAt: Date): void {
    this.transaction.writeLater('DELETE FROM ticket_locations WHERE id = $1 AND read_at <= $2', [
      id,
      readAt,
    ]);
  }
}
