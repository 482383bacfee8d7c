import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { AccountService } from '../people/account.service.js';
import { PersonService } from '../people/person.service.js';
import { personIdOf, type Principal } from '../people/principal.js';
import { Clock } from '../shared/clock.js';
import { InvalidInputError } from '../shared/domain-error.js';
import { ApiTokenService } from './api-token.service.js';
import { MailedLinkRepository } from './mailed-link.repository.js';
import type { ChangePasswordDto, PasswordChangedDto } from './password.dto.js';
import { PasswordService } from './password.service.js';
import { SessionService } from './session.service.js';
import { SignInTryService } from './sign-in-try.service.js';

@Injectable()
export class PasswordChangeService {
  constructor(
    private readonly accounts: AccountService,
    private readonly people: PersonService,
    private readonly links: MailedLinkRepository,
    private readonly tokens: ApiTokenService,
    private readonly sessions: SessionService,
    private readonly passwords: PasswordService,
    private readonly tries: SignInTryService,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  /** In parts: nothing is held while the password is checked. */
  async change(
    principal: Principal,
    { currentPassword, newPassword, endTokens }: ChangePasswordDto,
  ): Promise<PasswordChangedDto> {
    const personId = personIdOf(principal);
    const account = await this.transaction.read(() => this.accounts.get(personId));
    await this.tries.again(account, async () => {
      if (!(await this.passwords.verify(account.passwordHash, currentPassword))) throw wrong();
    });
    const chosen = { field: '/newPassword', password: newPassword };
    return this.transaction.write(async () => {
      // It may have been changed meanwhile, by a mailed link for one.
      await this.accounts.lock(personId);
      const { passwordHash } = await this.accounts.get(personId);
      if (passwordHash !== account.passwordHash) throw wrong();
      const changed = await this.set(personId, chosen, endTokens);
      await this.sessions.endOthers(principal);
      return changed;
    });
  }

  /** Ends every link by which a password could be chosen. What will not do as this person's password is an input error on the field. */
  async set(
    personId: string,
    { field, password }: { field: string; password: string },
    endTokens: boolean,
  ): Promise<PasswordChangedDto> {
    const { email } = await this.accounts.get(personId);
    const person = await this.people.findAnybody(personId);
    await this.accounts.keep(personId, {
      passwordHash: await this.passwords.choose(field, password, {
        name: person?.name ?? '',
        email,
      }),
      passwordChangedAt: this.clock.now(),
    });
    await this.links.deleteOfPerson(personId);
    if (endTokens) await this.tokens.endAllOf(personId);
    return { tokens: await this.tokens.listOfPerson(personId) };
  }
}

function wrong(): InvalidInputError {
  return new InvalidInputError([{ field: '/currentPassword', reason: 'is wrong' }]);
}
