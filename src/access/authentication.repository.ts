import { Injectable } from '@nestjs/common';
import type { Pool } from 'pg';
import { DataSource } from 'typeorm';
import type { Role } from '../people/roles.js';

export type CredentialKind = 'session' | 'token' | 'pass';

/** What the database says about a secret that was shown. */
export interface Shown {
  firmId: string;
  credentialId: string;
  personId: string | null;
  personName: string | null;
  role: Role;
  clientId: string | null;
  scopes: string[] | null;
  lastUsedAt: Date | null;
  endsAt: Date | null;
  passId: string | null;
  siteId: string | null;
  /** When the pass was ended, if it was. */
  endedAt: Date | null;
  /** What of the firm they reach, as an array of the database; empty: all of it. */
  siteIds: string;
}

const FIND_SHOWN = `
  SELECT place, firm_id AS "firmId", credential_id AS "credentialId", person_id AS "personId", person_name AS "personName", role,
    client_id AS "clientId", array_to_string(scopes, ' ') AS scopes, last_used_at AS "lastUsedAt", ends_at AS "endsAt",
    pass_id AS "passId", site_id AS "siteId", ended_at AS "endedAt", site_ids AS "siteIds"
  FROM find_shown($1, $2)`;

/** Scopes have spaces between: an array of the database costs more to read. */
type FoundRow = Omit<Shown, 'scopes'> & { scopes: string | null; place: number };

/** Questions at once: one that hangs does not keep everybody out. */
const AT_ONCE = 2;

interface Waiting {
  kind: CredentialKind;
  secretHash: string;
  resolve: (shown: Shown | undefined) => void;
  reject: (error: unknown) => void;
}

@Injectable()
export class AuthenticationRepository {
  private waiting: Waiting[] = [];
  private underWay = 0;
  private soon?: NodeJS.Immediate;

  constructor(private readonly dataSource: DataSource) {}

  /**
   * Who shows a secret, by its hash; undefined when nobody does. It stands in front of every
   * request, so those that come while others are asked about are asked about together.
   */
  find(kind: CredentialKind, secretHash: string): Promise<Shown | undefined> {
    return new Promise((resolve, reject) => {
      this.waiting.push({ kind, secretHash, resolve, reject });
      this.askSoon();
    });
  }

  /** When all that has come in is read: they go together. */
  private askSoon(): void {
    this.soon ??= setImmediate(() => {
      this.soon = undefined;
      this.askAboutWaiting();
    });
  }

  private askAboutWaiting(): void {
    if (this.waiting.length === 0 || this.underWay === AT_ONCE) return;
    const asked = this.waiting;
    this.waiting = [];
    this.underWay++;
    void this.answer(asked).finally(() => {
      this.underWay--;
      this.askSoon();
    });
  }

  private async answer(asked: Waiting[]): Promise<void> {
    try {
      const kinds = asked.map(({ kind }) => kind);
      const hashes = asked.map(({ secretHash }) => secretHash);
      const { master: pool } = this.dataSource.driver as unknown as { master: Pool };
      // Past the ORM, which cannot prepare a statement.
      const { rows } = await pool.query<FoundRow>({
        name: 'find shown',
        text: FIND_SHOWN,
        values: [kinds, hashes],
      });
      const found = new Map(rows.map(({ place, ...row }) => [place, toShown(row)]));
      for (const [index, { resolve }] of asked.entries()) resolve(found.get(index + 1));
    } catch (error) {
      for (const { reject } of asked) reject(error);
    }
  }

  /** Writes down that a credential is used; apart from the request's transaction, because reads cannot write. */
  async touch(kind: CredentialKind, { firmId, credentialId }: Shown, now: Date): Promise<void> {
    await this.dataSource.query('SELECT touch_shown($1, $2, $3, $4)', [
      kind,
      firmId,
      credentialId,
      now,
    ]);
  }
}

function toShown({ scopes, ...row }: Omit<FoundRow, 'place'>): Shown {
  return { ...row, scopes: scopes?.split(' ') ?? null };
}
