import { Injectable } from '@nestjs/common';
import { FirmTransaction, type Mode, type OpenTransaction } from '../database/firm-transaction.js';
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
}

const SHA256_HEX = /^[0-9a-f]{64}$/;

@Injectable()
export class AuthenticationRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  /**
   * Begins a transaction, finds who shows a secret by its hash and enters their firm. Undefined when
   * nobody does; otherwise the transaction is open, and the caller's to end.
   */
  async enter(
    kind: CredentialKind,
    secretHash: string,
    mode: Mode,
  ): Promise<{ shown: Shown; transaction: OpenTransaction } | undefined> {
    if (!SHA256_HEX.test(secretHash)) throw new Error('Not a hash');
    const { rows, transaction } = await this.transaction.enter<Shown>(
      mode,
      `SELECT firm_id AS "firmId", credential_id AS "credentialId", person_id AS "personId", role,
         client_id AS "clientId", scopes, last_used_at AS "lastUsedAt", ends_at AS "endsAt",
         pass_id AS "passId", site_id AS "siteId", ended_at AS "endedAt"
       FROM enter('${kind}', '${secretHash}')`,
    );
    const [shown] = rows;
    if (shown !== undefined) return { shown, transaction };
    await this.transaction.abandon(transaction);
    return undefined;
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
