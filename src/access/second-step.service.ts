import { Injectable } from '@nestjs/common';
import { Secret, TOTP } from 'otpauth';
import { toString as toQrCode } from 'qrcode';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Clock } from '../shared/clock.js';
import { ConflictError, InvalidInputError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { AccountService, type KnownAccount } from '../people/account.service.js';
import { MailService } from '../mail/mail.service.js';
import { PasswordService } from './password.service.js';
import { personIdOf, type Principal } from '../people/principal.js';
import { SecondStepRepository } from './second-step.repository.js';
import type { NewSecondStepDto } from './second-step.dto.js';
import { SealService } from './seal.service.js';
import type { RateLimit } from '../rate-limits/rate-limit.js';
import { RateLimitService } from '../rate-limits/rate-limit.service.js';
import { SecretService } from './secret.service.js';
import { SessionService } from './session.service.js';
import { SignInTryService } from './sign-in-try.service.js';

/** By the person, who gets a mail each time. */
const ENDINGS_MAILED: RateLimit = { name: 'endings-mailed', limit: 5, windowSeconds: 3600 };
const RECOVERY_CODES = 10;
const RECOVERY_BYTES = 14;
const PERIOD_SECONDS = 30;

/** The second step of signing in: a code from a phone (RFC 6238), or one of ten written down. */
@Injectable()
export class SecondStepService {
  constructor(
    private readonly repository: SecondStepRepository,
    private readonly accounts: AccountService,
    private readonly passwords: PasswordService,
    private readonly sessions: SessionService,
    private readonly mails: MailService,
    private readonly rates: RateLimitService,
    private readonly secrets: SecretService,
    private readonly seals: SealService,
    private readonly tries: SignInTryService,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  /** Makes a secret for the phone; it counts once a code has shown that the phone has it. In parts, as are the next two. */
  async begin(principal: Principal, password: string): Promise<NewSecondStepDto> {
    const account = await this.accountOf(principal);
    await this.tries.again(account, () => this.refuseWrong(account, password));
    const secret = new Secret({ size: 20 });
    const totpSecret = this.seals.seal(secret.base32, boundTo(account));
    await this.transaction.write(async () => {
      await this.accounts.lock(account.id);
      // Asked only now: one may have been turned on meanwhile.
      if ((await this.accounts.get(account.id)).totpConfirmedAt !== null)
        throw new ConflictError('There is a second step already; end it first.');
      await this.accounts.keep(account.id, { totpSecret, totpLastStep: null });
    });
    const uri = totp(secret.base32, account.email).toString();
    return { secret: secret.base32, uri, qrSvg: await toQrCode(uri, { type: 'svg', margin: 4 }) };
  }

  /**
   * Turns it on and ends the person's other sessions; answers with the recovery codes, shown this once. Who guesses the code of a
   * secret that lies there would hold both, and shut the person out.
   */
  async confirm(principal: Principal, code: string): Promise<string[]> {
    const known = await this.accountOf(principal);
    return this.tries.again(known, () =>
      this.transaction.write(async () => {
        await this.accounts.lock(known.id);
        const account = await this.accounts.get(known.id);
        if (account.totpSecret === null || account.totpConfirmedAt !== null) {
          throw new ConflictError('Begin a second step first.');
        }
        if (!(await this.isCode(account, code))) throw wrongCode();
        await this.accounts.keep(account.id, { totpConfirmedAt: this.clock.now() });
        await this.sessions.endOthers(principal);
        return this.replaceRecoveryCodes(account.id);
      }),
    );
  }

  /** A wrong code is as much of a guess as a wrong password. */
  async end(principal: Principal, password: string, code: string): Promise<void> {
    const account = await this.accountOf(principal);
    await this.tries.again(account, async () => {
      await this.refuseWrong(account, password);
      if (account.totpConfirmedAt === null) throw new ConflictError('There is no second step.');
      await this.transaction.write(async () => {
        if (!(await this.check(account, code))) throw wrongCode();
        await this.remove(account.id);
        await this.sessions.endOthers(principal);
      });
    });
  }

  /**
   * An owner ends the second step of somebody who lost phone and codes. Whoever is signed in as that
   * person is signed out, and the person is told: it may not have been them who asked.
   */
  async endFor(principal: Principal, personId: string): Promise<void> {
    if (personId === principal.personId) {
      throw new ConflictError('Your own second step ends by your password and a code.');
    }
    const account = await this.accounts.get(personId);
    if (account.totpConfirmedAt === null) throw new ConflictError('There is no second step.');
    await this.rates.count(ENDINGS_MAILED, `${account.firmId} ${personId}`);
    await this.remove(personId);
    await this.sessions.endAllOf(personId);
    await this.mails.post({
      recipient: account.email,
      subject: 'Your second step for Lastheard was ended',
      text: `An owner of your firm ended the second step of your sign-in, and your sessions with it.\n\nSign in with your password and turn the second step on again. If you did not ask for it, tell an owner at once.\n`,
    });
  }

  /** Whether a code of the phone, or one of those written down, is right; each is so once. */
  async check(account: KnownAccount, code: string): Promise<boolean> {
    if (/^\d{6}$/.test(code)) return this.isCode(account, code);
    return this.repository.use(account.id, this.secrets.hash(code));
  }

  private async isCode(account: KnownAccount, code: string): Promise<boolean> {
    const { id, email, totpSecret } = account;
    if (totpSecret === null) return false;
    const secret = this.seals.open(totpSecret, boundTo(account));
    const timestamp = this.clock.now().getTime();
    const delta = totp(secret, email).validate({ token: code, timestamp, window: 1 });
    if (delta === null) return false;
    return this.repository.takeStep(id, Math.floor(timestamp / 1000 / PERIOD_SECONDS) + delta);
  }

  private accountOf(principal: Principal): Promise<KnownAccount> {
    return this.transaction.read(() => this.accounts.get(personIdOf(principal)));
  }

  private async refuseWrong({ passwordHash }: KnownAccount, password: string): Promise<void> {
    if (await this.passwords.verify(passwordHash, password)) return;
    throw new InvalidInputError([{ field: '/password', reason: 'is wrong' }]);
  }

  private async replaceRecoveryCodes(personId: string): Promise<string[]> {
    const codes = Array.from({ length: RECOVERY_CODES }, () => this.secrets.create(RECOVERY_BYTES));
    await this.repository.deleteOfPerson(personId);
    await this.repository.insert(
      codes.map((one) => ({
        id: idOrNew(undefined),
        personId,
        codeHash: this.secrets.hash(one),
      })),
    );
    return codes;
  }

  private async remove(personId: string): Promise<void> {
    const nothing = { totpSecret: null, totpConfirmedAt: null, totpLastStep: null };
    await this.accounts.keep(personId, nothing);
    await this.repository.deleteOfPerson(personId);
  }
}

/** One person's seed in another's row would let the one in as the other. */
function boundTo({ firmId, id }: KnownAccount): string {
  return `totp ${firmId} ${id}`;
}

function totp(secret: string, label: string): TOTP {
  return new TOTP({ issuer: 'Lastheard', label, secret, period: PERIOD_SECONDS });
}

function wrongCode(): InvalidInputError {
  return new InvalidInputError([{ field: '/code', reason: 'is wrong or was used already' }]);
}
