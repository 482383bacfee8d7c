import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { DataSource } from 'typeorm';
import { ApiToken } from './api-token.entity.js';
import { PassSession } from './pass-session.entity.js';
import type { Role } from './roles.js';
import { Session } from './session.entity.js';

export type CredentialKind = 'session' | 'token' | 'pass';

/** What the database says about a secret that was shown. */
export interface Shown {
  firmId: string;
  credentialId: string;
  personId: string | null;
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
  SELECT place, firm_id AS "firmId", credential_id AS "credentialId", person_id AS "personId", role,
    client_id AS "clientId", scopes, last_used_at AS "lastUsedAt", ends_at AS "endsAt",
    pass_id AS "passId", site_id AS "siteId", ended_at AS "endedAt", site_ids AS "siteIds"
  FROM find_shown($1, $2)`;

interface Waiting {
  kind: CredentialKind;
  secretHash: string;
  resolve: (shown: Shown | undefined) => void;
  reject: (error: unknown) => void;
}

@Injectable()
export class AuthenticationRepository {
  private waiting: Waiting[] = [];

  constructor(
    private readonly transaction: FirmTransaction,
    private readonly dataSource: DataSource,
  ) {}

  /**
   * Who shows a secret, by its hash; undefined when nobody does. It stands in front of every
   * request, so those that come in the same moment are asked about together.
   */
  find(kind: CredentialKind, secretHash: string): Promise<Shown | undefined> {
    return new Promise((resolve, reject) => {
      this.waiting.push({ kind, secretHash, resolve, reject });
      if (this.waiting.length === 1) setImmediate(() => void this.answerAll());
    });
  }

  private async answerAll(): Promise<void> {
    const asked = this.waiting;
    this.waiting = [];
    try {
      const kinds = asked.map(({ kind }) => kind);
      const hashes = asked.map(({ secretHash }) => secretHash);
      const rows = await this.dataSource.query<(Shown & { place: number })[]>(FIND_SHOWN, [
        kinds,
        hashes,
      ]);
      const found = new Map(rows.map(({ place, ...shown }) => [place, shown]));
      for (const [index, { resolve }] of asked.entries()) resolve(found.get(index + 1));
    } catch (error) {
      for (const { reject } of asked) reject(error);
    }
  }

  /** Writes down that a credential is used; a transaction of its own, because reads cannot write. */
  async touch(kind: CredentialKind, { firmId, credentialId }: Shown, now: Date): Promise<void> {
    await this.transaction.run(firmId, 'write', async () => {
      const manager = await this.transaction.manager();
      const id = credentialId;
      if (kind === 'session') await manager.update(Session, { id }, { lastSeenAt: now });
      else if (kind === 'token') await manager.update(ApiToken, { id }, { lastUsedAt: now });
      else await manager.update(PassSession, { id }, { lastSeenAt: now });
    });
  }
}
