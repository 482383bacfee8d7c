import { Injectable } from '@nestjs/common';
import { createTransport } from 'nodemailer';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Clock } from '../shared/clock.js';
import { idOrNew } from '../shared/new-id.js';
import type { PageQueryDto } from '../shared/page.dto.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { BackgroundService } from '../shared/background.service.js';
import type { MailDto } from './mail.dto.js';
import { MailRepository } from './mail.repository.js';

/** Who takes mails, as an `smtp:` or `smtps:` URL, and whom they are from. */
export interface MailServer {
  smtpUrl: string;
  from: string;
}

export class MailSettings {
  /** Left out: mails stay in the outbox. */
  constructor(readonly server?: MailServer) {}
}

export interface NewMail {
  recipient: string;
  subject: string;
  text: string;
}

/** Sends mail by the configured server; without one it stays in the outbox, which the owner can read. */
@Injectable()
export class MailService {
  constructor(
    private readonly repository: MailRepository,
    private readonly transaction: FirmTransaction,
    private readonly background: BackgroundService,
    private readonly settings: MailSettings,
    private readonly clock: Clock,
  ) {}

  /** Within the firm's transaction: the mail goes out after its commit, or not at all. */
  async post(firmId: string, mail: NewMail): Promise<void> {
    const id = idOrNew(undefined);
    const state = { createdAt: this.clock.now(), sentAt: null, failure: null };
    await this.repository.insert({ id, ...mail, ...state });
    if (this.settings.server === undefined) return;
    this.transaction.afterCommit(() => this.background.run(this.send(firmId, id, mail)));
  }

  async list({ after, limit }: PageQueryDto): Promise<Page<MailDto>> {
    const mails = await this.repository.list(decodeCursor(after, 2), limit + 1);
    return toPage(
      mails,
      limit,
      ({ createdAt, id }) => [createdAt.toISOString(), id],
      ({ firmId, ...mail }) => mail,
    );
  }

  private async send(firmId: string, id: string, mail: NewMail): Promise<void> {
    const { recipient: to, subject, text } = mail;
    const { smtpUrl, from } = this.settings.server ?? {};
    const changes = await createTransport(smtpUrl)
      .sendMail({ from, to, subject, text })
      .then(() => ({ sentAt: this.clock.now(), text: null }))
      .catch((error: unknown) => ({ failure: String(error) }));
    await this.transaction.run(firmId, 'write', () => this.repository.update(id, changes));
  }
}
