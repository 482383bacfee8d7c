import { Injectable, Logger, type OnApplicationShutdown } from '@nestjs/common';
import { createTransport } from 'nodemailer';
import { FirmTransaction } from '../database/firm-transaction.js';
import { Clock } from '../shared/clock.js';
import { idOrNew } from '../shared/new-id.js';
import type { PageQueryDto } from '../shared/page.dto.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { AccessSettings } from './access-settings.js';
import type { MailDto } from './mail.dto.js';
import { MailRepository } from './mail.repository.js';

export interface NewMail {
  recipient: string;
  subject: string;
  text: string;
}

/** Sends mail by the configured server; without one it stays in the outbox, which the owner can read. */
@Injectable()
export class MailService implements OnApplicationShutdown {
  private readonly logger = new Logger('Mail');
  private readonly underWay = new Set<Promise<void>>();

  constructor(
    private readonly repository: MailRepository,
    private readonly transaction: FirmTransaction,
    private readonly settings: AccessSettings,
    private readonly clock: Clock,
  ) {}

  /** Within the firm's transaction: the mail goes out after its commit, or not at all. */
  async post(firmId: string, mail: NewMail): Promise<void> {
    const id = idOrNew(undefined);
    const state = { createdAt: this.clock.now(), sentAt: null, failure: null };
    await this.repository.insert({ id, ...mail, ...state });
    if (this.settings.mail === undefined) return;
    this.transaction.afterCommit(() => this.inBackground(this.send(firmId, id, mail)));
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

  /** Work whose answer nobody waits for; a failure is for the log. */
  inBackground(work: Promise<void>): void {
    const watched = work
      .catch((error: unknown) => this.logger.error(error instanceof Error ? error.stack : error))
      .finally(() => this.underWay.delete(watched));
    this.underWay.add(watched);
  }

  /** Resolves when nothing is under way. */
  async settle(): Promise<void> {
    while (this.underWay.size > 0) await Promise.all(this.underWay);
  }

  onApplicationShutdown(): Promise<void> {
    return this.settle();
  }

  private async send(firmId: string, id: string, mail: NewMail): Promise<void> {
    const { recipient: to, subject, text } = mail;
    const { smtpUrl, from } = this.settings.mail ?? {};
    const changes = await createTransport(smtpUrl)
      .sendMail({ from, to, subject, text })
      .then(() => ({ sentAt: this.clock.now(), text: null }))
      .catch((error: unknown) => ({ failure: String(error) }));
    await this.transaction.run(firmId, 'write', () => this.repository.update(id, changes));
  }
}
