import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { ConflictError, InvalidInputError, NotFoundError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import type { PageQueryDto } from '../shared/page.dto.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import type { AccountDto, ChangePasswordDto } from './account.dto.js';
import type { Account } from './account.entity.js';
import { AccountRepository } from './account.repository.js';
import { ApiTokenRepository } from './api-token.repository.js';
import { normaliseEmail, personalWords } from './email.js';
import { PasswordService } from './password.service.js';
import { PersonRepository } from './person.repository.js';
import { personIdOf, type Principal } from './principal.js';
import type { PersonRole } from './roles.js';
import { SessionService } from './session.service.js';

/** Somebody who gets a sign-in. */
export interface NewAccount {
  /** The person's id: of one who is there already, or of a new one. Left out: a new one. */
  personId?: string;
  name: string;
  email: string;
  role: PersonRole;
  /** With the role `client`: whose person it is. */
  clientId?: string | null;
  /** Left out: none until one is chosen by an invitation's link. */
  password?: string;
}

/** People's sign-ins; each within the firm's transaction. */
@Injectable()
export class AccountService {
  constructor(
    private readonly repository: AccountRepository,
    private readonly people: PersonRepository,
    private readonly tokens: ApiTokenRepository,
    private readonly sessions: SessionService,
    private readonly passwords: PasswordService,
    private readonly clock: Clock,
  ) {}

  /** Gives a person a sign-in; answers with the person's id. */
  async add({ personId, name, email, role, clientId, password }: NewAccount): Promise<string> {
    const normal = normaliseEmail(email);
    if ((await this.repository.listOfEmail(normal)).length > 0) {
      throw new ConflictError(`Somebody of the firm signs in as ${normal} already.`);
    }
    const createdAt = this.clock.now();
    const id = personId ?? idOrNew(undefined);
    if (password !== undefined) {
      this.passwords.check('/password', password, personalWords(name, normal));
    }
    if (personId === undefined || (await this.people.find(personId)) === null) {
      const person = { id, name, work: role, phone: null, clientId: clientId ?? null };
      await this.people.insert({ ...person, version: 1, createdAt });
    }
    await this.repository.insert({
      id,
      email: normal,
      passwordHash: password === undefined ? null : await this.passwords.hash(password),
      passwordChangedAt: password === undefined ? null : createdAt,
      lastSignInAt: null,
      endedAt: null,
      totpSecret: null,
      totpConfirmedAt: null,
      totpLastStep: null,
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

  async changePassword(
    principal: Principal,
    { currentPassword, newPassword }: ChangePasswordDto,
  ): Promise<void> {
    const account = await this.find(personIdOf(principal));
    if (!(await this.passwords.verify(account.passwordHash, currentPassword))) {
      throw new InvalidInputError([{ field: '/currentPassword', reason: 'is wrong' }]);
    }
    await this.setPassword(account, '/newPassword', newPassword);
    await this.sessions.endOthers(principal);
  }

  /** Ends a sign-in at once: sessions and tokens go, the person and what they did stay. */
  async end(personId: string): Promise<void> {
    await this.find(personId);
    if (!(await this.repository.hasOtherOwner(personId))) {
      throw new ConflictError('The last owner who can sign in stays; name another one first.');
    }
    await this.sessions.endAllOf(personId);
    await this.tokens.deleteOfPerson(personId);
    await this.repository.update(personId, { endedAt: this.clock.now() });
  }

  async setPassword(account: Account, field: string, password: string): Promise<void> {
    const person = await this.people.find(account.id);
    this.passwords.check(field, password, personalWords(person?.name ?? '', account.email));
    const passwordHash = await this.passwords.hash(password);
    await this.repository.update(account.id, {
      passwordHash,
      passwordChangedAt: this.clock.now(),
    });
  }

  private async find(personId: string): Promise<Account> {
    const account = await this.repository.find(personId);
    if (account === null) throw new NotFoundError('account', personId);
    return account;
  }
}
