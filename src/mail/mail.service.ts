import { Injectable } from '@nestjs/common';
import { createTransport } from 'nodemailer';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Job } from '../jobs/job-loop.service.js';
import { JOB_KINDS } from '../jobs/job-kinds.js';
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
  /** How long one try may take. */
  patienceMs?: number;
}

/** Half of the time after which another process takes the mail for given up, and tries it too. */
export const DEFAULT_PATIENCE_MS = JOB_KINDS.mail.expireInSeconds * 500;

export class MailSettings {
  /** Left out: mails stay in the outbox. */
  constructor(readonly server?: MailServer) {}
}

export interface NewMail {
  recipient: string;
  subject: string;
  text: string;
  /** Where a mail program may ask for an end of such mails by itself (RFC 8058); left out: such a mail is not asked for. */
  wayOut?: string;
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
  async post({ recipient, subject, text, wayOut }: NewMail): Promise<void> {
    const id = idOrNew(undefined);
    const state = {
      wayOut: wayOut ?? null,
      createdAt: this.clock.now(),
      sentAt: null,
      failure: null,
    };
    await this.repository.insert({ id, recipient, subject, text, ...state });
    if (this.settings.server !== undefined) await this.jobs.enqueue('mail', { mailId: id });
  }

  async list({ after, limit }: PageQueryDto): Promise<Page<MailDto>> {
    const mails = await this.repository.list(decodeCursor(after, 2), limit + 1);
    const refused = mails
      .filter(({ failure }) => failure !== null)
      .map(({ id }) => ({ mailId: id }));
    const waiting = new Set(
      (await this.jobs.listWaiting('mail', refused)).map((one) => one.mailId),
    );
    return toPage(
      mails,
      limit,
      ({ createdAt, id }) => [createdAt.toISOString(), id],
      ({ firmId: _firmId, wayOut: _wayOut, ...mail }) => ({
        ...mail,
        isGivenUp: mail.failure !== null && !waiting.has(mail.id),
      }),
    );
  }

  /**
   * Sent twice only where this ends between the server's word and ours, or its word takes longer than our patience; the
   * receiver then sees one id.
   */
  private async send(
    { firmId, data: { mailId: id }, finish }: Job<{ mailId: string }>,
    { smtpUrl, from, patienceMs = DEFAULT_PATIENCE_MS }: MailServer,
  ): Promise<void> {
    const mail = await this.transaction.run(firmId, 'read', () => this.repository.find(id));
    if (mail === null || mail.text === null) return finish(() => Promise.resolve());
    const { recipient: to, subject, text, wayOut } = mail;
    const messageId = `<${id}@lastheard>`;
    const signal = AbortSignal.timeout(patienceMs);
    try {
      const list = wayOut === null ? {} : wayOutHeaders(wayOut);
      const sent = { from, to, subject, text, messageId, signal, ...list };
      await createTransport(smtpUrl).sendMail(sent);
    } catch (error) {
      const failure = signal.aborted
        ? `The mail server gave no answer within ${patienceMs / 1000} s.`
        : String(error);
      await this.transaction.run(firmId, 'write', () => this.repository.update(id, { failure }));
      throw error;
    }
    const sentAt = this.clock.now();
    await finish(() =>
      this.repository.update(id, { sentAt, text: null, wayOut: null, failure: null }),
    );
  }
}

/** One-click, as RFC 8058 has it: the mail program posts this, whoever reads the mail need not open a page. */
function wayOutHeaders(link: string) {
  return {
    headers: {
      'List-Unsubscribe': `<${link}>`,
      'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click',
    },
  };
}
