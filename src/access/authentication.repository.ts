import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { SentTogether } from '../database/sent-together.js';
import type { Role } from '../people/roles.js';

export type CredentialKind = 'session' | 'token' | 'pass';

/** What the database says about a secret that was shown; for all who showed it at once. */
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

/** Requests that show the same secret, and wait for the same packet. */
interface Waiting {
  kind: CredentialKind;
  secretHash: string;
  asking: { resolve: (shown: Shown | undefined) => void; reject: (error: unknown) => void }[];
}

@Injectable()
export class AuthenticationRepository {
  private readonly waiting = new Map<string, Waiting>();

  constructor(
    private readonly dataSource: DataSource,
    private readonly sent: SentTogether,
  ) {}

  /**
   * Who shows a secret, by its hash; undefined when nobody does. It stands in front of every
   * request, so those that come while others are asked about are asked about together: each secret
   * once, however many requests of a page or a program show it.
   */
  find(kind: CredentialKind, secretHash: string): Promise<Shown | undefined> {
    return new Promise((resolve, reject) => {
      if (this.waiting.size === 0) this.sent.whenSending(() => void this.answer());
      const one = { resolve, reject };
      const same = this.waiting.get(`${kind} ${secretHash}`);
      if (same === undefined)
        this.waiting.set(`${kind} ${secretHash}`, { kind, secretHash, asking: [one] });
      else same.asking.push(one);
    });
  }

  private async answer(): Promise<void> {
    const asked = [...this.waiting.values()];
    this.waiting.clear();
    try {
      const kinds = asked.map(({ kind }) => kind);
      const hashes = asked.map(({ secretHash }) => secretHash);
      const { rows } = await this.sent.query<FoundRow>({
        name: 'find shown',
        text: FIND_SHOWN,
        values: [kinds, hashes],
      });
      const found = new Map(rows.map(({ place, ...row }) => [place, toShown(row)]));
      for (const [index, { asking }] of asked.entries())
        for (const { resolve } of asking) resolve(found.get(index + 1));
    } catch (error) {
      for (const { reject } of asked.flatMap(({ asking }) => asking)) reject(error);
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
