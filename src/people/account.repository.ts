import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Account } from './account.entity.js';
import { Person } from './person.entity.js';
import type { PersonRole } from './roles.js';

/** An account with what its person is. */
export interface AccountOfPerson extends Pick<
  Account,
  'id' | 'email' | 'passwordChangedAt' | 'lastSignInAt' | 'endedAt' | 'createdAt'
> {
  name: string;
  role: PersonRole;
  clientId: string | null;
  hasPassword: boolean;
  hasSecondStep: boolean;
}

const CREDENTIALS = [
  ['sessions', 'person_id'],
  ['api_tokens', 'person_id'],
  ['mailed_links', 'person_id'],
  ['recovery_codes', 'person_id'],
  ['calendar_feeds', 'technician_id'],
  ['notice_wishes', 'person_id'],
] as const;

@Injectable()
export class AccountRepository {
  constructor(private readonly transaction: FirmTransaction) {}

  async insert(account: Omit<Account, 'firmId'>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.insert(Account, { ...account });
  }

  async find(id: string): Promise<Account | null> {
    const manager = await this.transaction.manager();
    return manager.findOneBy(Account, { id });
  }

  /** In a firm's transaction the firm's one; when signing in, those of all firms. */
  async listOfEmail(email: string): Promise<Account[]> {
    const manager = await this.transaction.manager();
    return manager.findBy(Account, { email });
  }

  async update(id: string, columns: Partial<Omit<Account, 'firmId' | 'id'>>): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.update(Account, { id }, columns);
  }

  /** By e-mail; at most `count`, after the given one. */
  async list(after: string | undefined, count: number): Promise<AccountOfPerson[]> {
    const manager = await this.transaction.manager();
    const query = manager
      .createQueryBuilder(Account, 'account')
      .innerJoin(Person, 'person', 'person.id = account.id')
      .select([
        'account.id AS id',
        'account.email AS email',
        'account.password_hash IS NOT NULL AS "hasPassword"',
        'account.totp_confirmed_at IS NOT NULL AS "hasSecondStep"',
        'account.password_changed_at AS "passwordChangedAt"',
        'account.last_sign_in_at AS "lastSignInAt"',
        'account.ended_at AS "endedAt"',
        'account.created_at AS "createdAt"',
        'person.name AS name',
        'person.work AS role',
        'person.client_id AS "clientId"',
      ]);
    if (after !== undefined) query.where('account.email > :after', { after });
    return query.orderBy('account.email').limit(count).getRawMany<AccountOfPerson>();
  }

  /**
   * Whether somebody is the last owner of the firm who can sign in. Only one transaction of a firm at a
   * time may ask: until it ends, nobody else makes an owner fewer.
   */
  async isLastOwner(personId: string): Promise<boolean> {
    const manager = await this.transaction.manager();
    await manager.query(
      `SELECT pg_advisory_xact_lock(hashtextextended('owners ' || current_setting('app.firm_id'), 0))`,
    );
    const [row] = await manager.query<{ last: boolean }[]>(
      `SELECT count(*) FILTER (WHERE id = $1) = 1 AND count(*) = 1 AS last
       FROM accounts JOIN people USING (firm_id, id)
       WHERE work = 'owner' AND ended_at IS NULL AND password_hash IS NOT NULL`,
      [personId],
    );
    return row?.last === true;
  }

  /** Keeps others from changing the account until the transaction ends. */
  async lock(personId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query('SELECT FROM accounts WHERE id = $1 FOR UPDATE', [personId]);
  }

  /** Whatever lets the person in, or shows their days, goes, in whichever table it is. */
  async deleteCredentials(personId: string): Promise<void> {
    const manager = await this.transaction.manager();
    for (const [table, column] of CREDENTIALS) {
      await manager.query(`DELETE FROM ${table} WHERE ${column} = $1`, [personId]);
    }
  }

  /** With the mails to its address. */
  async delete(personId: string): Promise<void> {
    const manager = await this.transaction.manager();
    await manager.query(
      'DELETE FROM mails WHERE recipient IN (SELECT email FROM accounts WHERE id = $1)',
      [personId],
    );
    await manager.delete(Account, { id: personId });
  }

  async hasAny(): Promise<boolean> {
    const manager = await this.transaction.manager();
    return manager.exists(Account);
  }
}
