import { Injectable } from '@nestjs/common';
import { createTransport } from 'nodemailer';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Job } from '../jobs/job-loop.service.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import { idOrNew } from '../shared/new-id.js';
import type { PageQueryDto } from '../shared/page.dto.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
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
    private readonly jobs: JobService,
    private readonly settings: MailSettings,
    private readonly clock: Clock,
  ) {
    const { server } = settings;
    if (server !== undefined) jobs.handle('mail', (job) => this.send(job, server));
  }

  /** Within the firm's transaction: the mail goes out after its commit, or not at all. */
  async post(mail: NewMail): Promise<void> {
    const id = idOrNew(undefined);
    const state = { createdAt: this.clock.now(), sentAt: null, failure: null };
    await this.repository.insert({ id, ...mail, ...state });
    if (this.settings.server !== undefined) await this.jobs.enqueue('mail', { mailId: id });
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

  /** Sent twice only where this ends between the server's word and ours; the receiver then sees one id. */
  private async send(
    { firmId, data: { mailId: id }, finish }: Job<{ mailId: string }>,
    { smtpUrl, from }: MailServer,
  ): Promise<void> {
    const mail = await this.transaction.run(firmId, 'read', () => this.repository.find(id));
    if (mail === null || mail.text === null) return finish(() => Promise.resolve());
    const { recipient: to, subject, text } = mail;
    const messageId = `<${id}@lastheard>`;
    try {
      await createTransport(smtpUrl).sendMail({ from, to, subject, text, messageId });
    } catch (error) {
      const failure = String(error);
      await this.transaction.run(firmId, 'write', () => this.repository.update(id, { failure }));
      throw error;
    }
    const sentAt = this.clock.now();
    await finish(() => this.repository.update(id, { sentAt, text: null, failure: null }));
  }
}
