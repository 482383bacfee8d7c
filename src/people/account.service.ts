import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { ConflictError, NotFoundError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import type { PageQueryDto } from '../shared/page.dto.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import type { AccountDto } from './account.dto.js';
import type { Account } from './account.entity.js';
import { AccountRepository } from './account.repository.js';
import { normaliseEmail } from './email.js';
import { PersonRepository } from './person.repository.js';
import type { PersonRole } from './roles.js';

/** An account as other features read it. */
export type KnownAccount = Readonly<Account>;

/** Somebody who gets a sign-in. */
export interface NewAccount {
  /** The person's id: of one who is there already, or of a new one. Left out: a new one. */
  personId?: string;
  name: string;
  email: string;
  role: PersonRole;
  /** With the role `client`: whose person it is. */
  clientId?: string | null;
  /** Null: none until one is chosen by an invitation's link. */
  passwordHash: string | null;
}

/** People's sign-ins; each within the firm's transaction. */
@Injectable()
export class AccountService {
  constructor(
    private readonly repository: AccountRepository,
    private readonly people: PersonRepository,
    private readonly clock: Clock,
  ) {}

  /** Gives a person a sign-in; answers with the person's id. */
  async add({ personId, name, email, role, clientId, passwordHash }: NewAccount): Promise<string> {
    const normal = normaliseEmail(email);
    if ((await this.repository.listOfEmail(normal)).length > 0) {
      throw new ConflictError(`Somebody of the firm signs in as ${normal} already.`);
    }
    const createdAt = this.clock.now();
    const id = personId ?? idOrNew(undefined);
    if (personId === undefined || (await this.people.find(personId)) === null) {
      const person = { id, name, work: role, phone: null, clientId: clientId ?? null };
      await this.people.insert({ ...person, version: 1, createdAt });
    }
    await this.repository.insert({
      id,
      email: normal,
      passwordHash,
      passwordChangedAt: passwordHash === null ? null : createdAt,
      lastSignInAt: null,
      endedAt: null,
      totpSecret: null,
      totpConfirmedAt: null,
      totpLastStep: null,
      language: null,
      createdAt,
    });
    return id;
  }

  async list({ after, limit }: PageQueryDto): Promise<Page<AccountDto>> {
    const accounts = await this.repository.list(decodeCursor(after, 1)?.[0], limit + 1);
    return toPage(
      accounts,
      limit,
      ({ email }) => [email],
      (account) => account,
    );
  }

  async get(personId: string): Promise<KnownAccount> {
    const account = await this.repository.find(personId);
    if (account === null) throw new NotFoundError('account', personId);
    return account;
  }

  /** In a firm's transaction the firm's one; when signing in, those of all firms. */
  listOfEmail(email: string): Promise<KnownAccount[]> {
    return this.repository.listOfEmail(email);
  }

  /** Keeps others from changing the account until the transaction ends. */
  async lock(personId: string): Promise<void> {
    await this.repository.lock(personId);
  }

  hasAny(): Promise<boolean> {
    return this.repository.hasAny();
  }

  async keep(personId: string, columns: Partial<Omit<Account, 'firmId' | 'id'>>): Promise<void> {
    await this.repository.update(personId, columns);
  }

  /** Ends a sign-in at once: what lets in goes, the person and what they did stay. */
  async end(personId: string): Promise<void> {
    await this.get(personId);
    await this.refuseLastOwner(personId);
    await this.repository.deleteCredentials(personId);
    await this.repository.update(personId, { endedAt: this.clock.now() });
  }

  /** Without an owner who can sign in nobody could ever let anybody in again. */
  async refuseLastOwner(personId: string): Promise<void> {
    if (!(await this.repository.isLastOwner(personId))) return;
    throw new ConflictError('The last owner who can sign in stays one; name another one first.');
  }
}
