import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { FirmRepository } from '../database/firm.repository.js';
import { RetentionService } from '../jobs/retention.service.js';
import { AccountService, type NewAccount } from '../people/account.service.js';
import { normaliseEmail } from '../people/email.js';
import { Clock } from '../shared/clock.js';
import { ApiTokenService } from './api-token.service.js';
import { MailedLinkService } from './mailed-link.service.js';
import { PasswordService } from './password.service.js';
import { SCOPES } from './scopes.js';

/** Somebody who gets a sign-in; without a password one is chosen by a link. */
export type NewSignIn = Omit<NewAccount, 'passwordHash'> & { password?: string };

/** What is done before anybody can sign in: for the first start, commands, the demo and tests. */
@Injectable()
export class SetUpService {
  constructor(
    private readonly firms: FirmRepository,
    private readonly accounts: AccountService,
    private readonly passwords: PasswordService,
    private readonly links: MailedLinkService,
    private readonly tokens: ApiTokenService,
    private readonly retention: RetentionService,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  /** Makes sure that the firm is there. */
  async ensureFirm(firmId: string, name: string): Promise<void> {
    await this.transaction.run(firmId, 'write', async () => {
      await this.firms.ensure(name, this.clock.now());
      await this.retention.begin();
    });
  }

  /** Adds somebody who can sign in; answers with the person's id. */
  async addAccount(firmId: string, account: NewSignIn): Promise<string> {
    return this.transaction.run(firmId, 'write', () => this.add(account));
  }

  /** The same, unless somebody of the firm has this e-mail already. */
  async ensureAccount(firmId: string, account: NewSignIn): Promise<string> {
    return this.transaction.run(firmId, 'write', async () => {
      const [there] = await this.accounts.listOfEmail(normaliseEmail(account.email));
      return there?.id ?? this.add(account);
    });
  }

  /** Adds the first owner; answers with the person's id, or undefined where somebody of the firm can sign in already. */
  async ensureOwner(firmId: string, owner: Omit<NewSignIn, 'role'>): Promise<string | undefined> {
    if (await this.hasSignIns(firmId)) return undefined;
    // Before the lock: hashing takes long on purpose, and whoever needs the firm's row would wait for it.
    const hashed = await this.hashed({ ...owner, role: 'owner' });
    return this.transaction.run(firmId, 'write', async () => {
      // Of two at once, in two processes perhaps, the second finds an owner.
      await this.firms.lock();
      if (await this.accounts.hasAny()) return undefined;
      return this.accounts.add(hashed);
    });
  }

  async hasSignIns(firmId: string): Promise<boolean> {
    return this.transaction.run(firmId, 'read', () => this.accounts.hasAny());
  }

  /** Adds a firm with its first owner; answers with the link by which the owner chooses a password. */
  async addFirm(firmId: string, name: string, owner: Omit<NewSignIn, 'role'>): Promise<string> {
    return this.transaction.run(firmId, 'write', async () => {
      await this.firms.ensure(name, this.clock.now());
      await this.retention.begin();
      const personId = await this.add({ ...owner, role: 'owner' });
      return this.links.create(personId, 'invitation');
    });
  }

  /** A new token with all scopes in place of all that the person had. */
  async replaceToken(firmId: string, personId: string, name: string): Promise<string> {
    await this.transaction.run(firmId, 'write', () => this.tokens.endAllOf(personId));
    return this.createToken(firmId, personId, name);
  }

  /** A token that acts as a person, with all scopes. */
  async createToken(firmId: string, personId: string, name: string): Promise<string> {
    const { token } = await this.transaction.run(firmId, 'write', () =>
      this.tokens.create(personId, { name, scopes: [...SCOPES], endsAt: null }),
    );
    return token;
  }

  private async add(account: NewSignIn): Promise<string> {
    return this.accounts.add(await this.hashed(account));
  }

  private async hashed({ password, ...account }: NewSignIn): Promise<NewAccount> {
    const passwordHash =
      password === undefined ? null : await this.passwords.choose('/password', password, account);
    return { ...account, passwordHash };
  }
}
