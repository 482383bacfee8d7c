import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Clock } from '../shared/clock.js';
import { InvalidInputError, UnauthenticatedError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { AccessSettings } from './access-settings.js';
import { AccountService } from '../people/account.service.js';
import { BackgroundService } from '../shared/background.service.js';
import { normaliseEmail } from '../people/email.js';
import type { PasswordChangedDto } from './password.dto.js';
import type { InvitedDto, InviteDto, PasswordFromLinkDto } from './mailed-link.dto.js';
import type { LinkKind, MailedLink } from './mailed-link.entity.js';
import { MailedLinkRepository } from './mailed-link.repository.js';
import { MailService } from '../mail/mail.service.js';
import type { AuditedRequest } from '../audit/audited-request.js';
import { AuditService } from '../audit/audit.service.js';
import { PasswordChangeService } from './password-change.service.js';
import type { RateLimit } from '../rate-limits/rate-limit.js';
import { RateLimitService } from '../rate-limits/rate-limit.service.js';
import { SecretService } from './secret.service.js';
import { SessionService } from './session.service.js';

const HOUR_MS = 60 * 60_000;
const LASTS_MS: Readonly<Record<LinkKind, number>> = {
  invitation: 7 * 24 * HOUR_MS,
  reset: 1 * HOUR_MS,
};

/** By the person. */
const RESETS_MAILED: RateLimit = { name: 'resets-mailed', limit: 5, windowSeconds: 3600 };

const LINK_OVER = 'This link was used already or is too old; ask for a new one.';

/** Invitations, and passwords that were forgotten: both are a link by which a password is chosen. */
@Injectable()
export class MailedLinkService {
  constructor(
    private readonly repository: MailedLinkRepository,
    private readonly accounts: AccountService,
    private readonly passwords: PasswordChangeService,
    private readonly sessions: SessionService,
    private readonly mails: MailService,
    private readonly background: BackgroundService,
    private readonly audit: AuditService,
    private readonly rates: RateLimitService,
    private readonly secrets: SecretService,
    private readonly settings: AccessSettings,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  /** Gives somebody a sign-in and mails them the link. */
  async invite({ name, email, role, clientId }: InviteDto): Promise<InvitedDto> {
    if ((role === 'client') !== (clientId !== null)) {
      const reason =
        role === 'client' ? 'is missing: a client’s person is of one' : 'is for clients';
      throw new InvalidInputError([{ field: '/clientId', reason }]);
    }
    const personId = await this.accounts.add({ name, email, role, clientId, passwordHash: null });
    const link = await this.create(personId, 'invitation');
    await this.mails.post({
      recipient: normaliseEmail(email),
      subject: 'You can sign in to Lastheard',
      text: `Good day ${name},\n\nchoose a password within seven days, and you can sign in:\n\n${link}\n${this.noteOnLink()}`,
    });
    return { personId, linkWarning: this.settings.linkWarning };
  }

  /** Answers at once and the same for everybody; whether there is an account shows in the mail alone. */
  requestReset(email: string): void {
    this.background.run(this.mailResets(normaliseEmail(email)));
  }

  /** Sets the password by a link, which then is used up, and ends all sessions of the person; says of which e-mail. */
  async setPassword(
    { link, password, endTokens }: PasswordFromLinkDto,
    request: AuditedRequest,
  ): Promise<{ email: string; changed: PasswordChangedDto }> {
    const secretHash = this.secrets.hash(link);
    const found = await this.transaction.runFinding('secret_hash', secretHash, () =>
      this.repository.findShown(secretHash),
    );
    if (found === null || found.endsAt <= this.clock.now()) {
      throw new UnauthenticatedError(LINK_OVER);
    }
    return this.transaction.run(found.firmId, 'write', async () => {
      const used = await this.use(found, password, endTokens);
      this.audit.signingIn(found.personId, request, 'done');
      return used;
    });
  }

  /** A link as text, within the firm's transaction. */
  async create(personId: string, kind: LinkKind): Promise<string> {
    const secret = this.secrets.create();
    // A password that is changed meanwhile ends the link, or comes before it.
    await this.accounts.lock(personId);
    await this.repository.replace({
      id: idOrNew(undefined),
      secretHash: this.secrets.hash(secret),
      personId,
      kind,
      endsAt: new Date(this.clock.now().getTime() + LASTS_MS[kind]),
    });
    return `${this.settings.publicUrl}/password#${secret}`;
  }

  /** For whoever cannot open it. */
  private noteOnLink(): string {
    if (this.settings.linkWarning === null) return '';
    return '\nIf the link does not open, tell your firm: Lastheard was not told its public address (PUBLIC_URL).\n';
  }

  private async use(
    { id, personId }: MailedLink,
    password: string,
    endTokens: boolean,
  ): Promise<{ email: string; changed: PasswordChangedDto }> {
    if (!(await this.repository.delete(id))) throw new UnauthenticatedError(LINK_OVER);
    const { email, endedAt } = await this.accounts.get(personId);
    if (endedAt !== null) throw new UnauthenticatedError(LINK_OVER);
    const chosen = { field: '/password', password };
    const changed = await this.passwords.set(personId, chosen, endTokens);
    await this.sessions.endAllOf(personId);
    return { email, changed };
  }

  private async mailResets(email: string): Promise<void> {
    const found = await this.transaction.runFinding('sign_in_email', email, () =>
      this.accounts.listOfEmail(email),
    );
    for (const { firmId, id, endedAt } of found) {
      if (endedAt !== null) continue;
      if (!(await this.rates.allows(RESETS_MAILED, `${firmId} ${id}`))) continue;
      await this.transaction.run(firmId, 'write', async () => {
        const link = await this.create(id, 'reset');
        await this.mails.post({
          recipient: email,
          subject: 'A new password for Lastheard',
          text: `Choose a new password within the hour:\n\n${link}\n\nIf you did not ask for it, leave it: nothing has changed.\n${this.noteOnLink()}`,
        });
      });
    }
  }
}
