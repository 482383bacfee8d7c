import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Clock } from '../shared/clock.js';
import {
  ConflictError,
  SecondStepRequiredError,
  UnauthenticatedError,
} from '../shared/domain-error.js';
import { AccountService, type KnownAccount } from '../people/account.service.js';
import { BackgroundService } from '../shared/background.service.js';
import { normaliseEmail } from '../people/email.js';
import { PasswordService } from './password.service.js';
import { AuditService } from '../audit/audit.service.js';
import type { AuditedRequest } from '../audit/audited-request.js';
import { SignInTryService } from './sign-in-try.service.js';
import { SecondStepService } from './second-step.service.js';
import type { SignInDto } from './session.dto.js';
import { type NewSession, type Origin, SessionService } from './session.service.js';

/** One answer for a wrong password, an unknown e-mail and an ended account. */
const WRONG = 'The e-mail or the password is wrong.';

@Injectable()
export class SignInService {
  constructor(
    private readonly accounts: AccountService,
    private readonly passwords: PasswordService,
    private readonly sessions: SessionService,
    private readonly secondStep: SecondStepService,
    private readonly audit: AuditService,
    private readonly background: BackgroundService,
    private readonly tries: SignInTryService,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  /** `device` is the id of one that has signed in with this e-mail before. */
  async signIn(
    given: SignInDto,
    origin: Origin & { device?: string },
    request: AuditedRequest,
  ): Promise<NewSession> {
    const email = normaliseEmail(given.email);
    const thisTry = await this.tries.begin(email, origin.address, origin.device);
    const account = await this.prove(email, given, request).catch(async (error: unknown) => {
      if (!(error instanceof UnauthenticatedError)) await thisTry.takeBack();
      throw error;
    });
    await thisTry.succeeded();
    return this.transaction.run(account.firmId, 'write', async () => {
      this.audit.signingIn(account.id, request, 'done');
      await this.accounts.keep(account.id, { lastSignInAt: this.clock.now() });
      return this.sessions.open(account.firmId, account.id, origin);
    });
  }

  /** The second step is asked for only after the right password, and says no more then. */
  private async prove(
    email: string,
    given: SignInDto,
    request: AuditedRequest,
  ): Promise<KnownAccount> {
    const account = await this.findAccount(email, given, request);
    if (account.totpConfirmedAt === null) return account;
    const { code } = given;
    if (code === undefined) throw new SecondStepRequiredError();
    const right = await this.transaction.run(account.firmId, 'write', () =>
      this.secondStep.check(account, code),
    );
    if (!right) this.noteRefused([account], request);
    if (!right) throw new UnauthenticatedError('The code is wrong or was used already.');
    return account;
  }

  private async findAccount(
    email: string,
    { password, firmId }: SignInDto,
    request: AuditedRequest,
  ): Promise<KnownAccount> {
    const found = await this.transaction.runFinding('sign_in_email', email, () =>
      this.accounts.listOfEmail(email),
    );
    const tried = found.filter((one) => firmId === undefined || one.firmId === firmId);
    const right = await this.withRightPassword(tried, password);
    const [account, another] = right.filter(({ endedAt }) => endedAt === null);
    if (account === undefined) this.noteRefused(tried, request);
    if (account === undefined) throw new UnauthenticatedError(WRONG);
    if (another !== undefined) {
      throw new ConflictError('This e-mail signs in to several firms; say which with firmId.', {
        firmIds: right.map((one) => one.firmId),
      });
    }
    return account;
  }

  /** Not waited for: that there is something to note must not show in how long the answer takes. */
  private noteRefused(accounts: KnownAccount[], request: AuditedRequest): void {
    for (const { firmId, id } of accounts) {
      const note = () => this.audit.signingIn(id, request, 'refused');
      this.background.run(this.transaction.run(firmId, 'write', note));
    }
  }

  /** Where there is no account, one that does not exist is checked, so that it takes as long. */
  private async withRightPassword(
    accounts: KnownAccount[],
    password: string,
  ): Promise<KnownAccount[]> {
    if (accounts.length === 0) await this.passwords.verify(null, password);
    const checks = accounts.map((one) => this.passwords.verify(one.passwordHash, password));
    const right = await Promise.all(checks);
    return accounts.filter((_, index) => right[index] === true);
  }
}
