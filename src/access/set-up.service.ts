import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { AccountRepository } from './account.repository.js';
import { AccountService, type NewAccount } from './account.service.js';
import { ApiTokenRepository } from './api-token.repository.js';
import { ApiTokenService } from './api-token.service.js';
import { normaliseEmail } from './email.js';
import { FirmService } from './firm.service.js';
import { MailedLinkService } from './mailed-link.service.js';
import { SCOPES } from './scopes.js';

const OWNER_INVITED_FOR_MS = 7 * 24 * 60 * 60_000;

/** What is done before anybody can sign in: for the first start, commands, the demo and tests. */
@Injectable()
export class SetUpService {
  constructor(
    private readonly firms: FirmService,
    private readonly accounts: AccountService,
    private readonly accountRows: AccountRepository,
    private readonly links: MailedLinkService,
    private readonly tokens: ApiTokenService,
    private readonly tokenRows: ApiTokenRepository,
    private readonly transaction: FirmTransaction,
  ) {}

  /** Makes sure that the firm is there. */
  async ensureFirm(firmId: string, name: string): Promise<void> {
    await this.transaction.run(firmId, 'write', () => this.firms.ensure(name));
  }

  /** Adds somebody who can sign in; answers with the person's id. */
  async addAccount(firmId: string, account: NewAccount): Promise<string> {
    return this.transaction.run(firmId, 'write', () => this.accounts.add(account));
  }

  /** The same, unless somebody of the firm has this e-mail already. */
  async ensureAccount(firmId: string, account: NewAccount): Promise<string> {
    return this.transaction.run(firmId, 'write', async () => {
      const [there] = await this.accountRows.listOfEmail(normaliseEmail(account.email));
      return there?.id ?? this.accounts.add(account);
    });
  }

  /** Adds the first owner, unless somebody of the firm can sign in already. */
  async ensureOwner(firmId: string, owner: Omit<NewAccount, 'role'>): Promise<void> {
    await this.transaction.run(firmId, 'write', async () => {
      if (await this.accountRows.hasAny()) return;
      await this.accounts.add({ ...owner, role: 'owner' });
    });
  }

  /** Adds a firm with its first owner; answers with the link by which the owner chooses a password. */
  async addFirm(firmId: string, name: string, owner: Omit<NewAccount, 'role'>): Promise<string> {
    return this.transaction.run(firmId, 'write', async () => {
      await this.firms.ensure(name);
      const personId = await this.accounts.add({ ...owner, role: 'owner' });
      return this.links.create(personId, OWNER_INVITED_FOR_MS);
    });
  }

  /** A new token with all scopes in place of all that the person had. */
  async replaceToken(firmId: string, personId: string, name: string): Promise<string> {
    await this.transaction.run(firmId, 'write', () => this.tokenRows.deleteOfPerson(personId));
    return this.createToken(firmId, personId, name);
  }

  /** A token that acts as a person, with all scopes. */
  async createToken(firmId: string, personId: string, name: string): Promise<string> {
    const { token } = await this.transaction.run(firmId, 'write', () =>
      this.tokens.create(personId, { name, scopes: [...SCOPES], endsAt: null }),
    );
    return token;
  }
}
