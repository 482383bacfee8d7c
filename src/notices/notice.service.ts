import { Injectable } from '@nestjs/common';
import { AccessSettings } from '../access/access-settings.js';
import { SealService } from '../access/seal.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { JobData } from '../jobs/job-kinds.js';
import type { Job } from '../jobs/job-loop.service.js';
import { JobService } from '../jobs/job.service.js';
import { RetentionService } from '../jobs/retention.service.js';
import { MailService } from '../mail/mail.service.js';
import type { PersonRole } from '../people/roles.js';
import { Clock } from '../shared/clock.js';
import { noticeWordsIn } from '../words/index.js';
import { happeningKey, type NoticeFacts } from './notice-kinds.js';
import { NoticeWishRepository } from './notice-wish.repository.js';
import { type Addressee, NoticeRepository } from './notice.repository.js';
import { WebhookSender } from './webhook-sender.service.js';

/** When it is told what visits the next day has, by each site's clock, and how often that is looked at. */
const TOLD_FROM_HOUR = 15;
const HOUR_SECONDS = 3600;

/** Visits that are told of at one look; the next look tells of more. */
const MOST_VISITS = 500;

const KEPT_MS = 90 * 24 * HOUR_SECONDS * 1000;

const GONE = 410;

/** Where somebody looks at a ticket; a client’s people have no place for it. */
const PLACE_OF_TICKETS: Readonly<Record<PersonRole, string | null>> = {
  owner: '/desk/tickets',
  dispatcher: '/desk/tickets',
  'contract-manager': '/desk/tickets',
  technician: '/field/tickets',
  client: null,
};

/** Tells who asked what happened: each happening once. */
@Injectable()
export class NoticeService {
  constructor(
    private readonly notices: NoticeRepository,
    private readonly wishes: NoticeWishRepository,
    private readonly mails: MailService,
    private readonly webhooks: WebhookSender,
    private readonly seals: SealService,
    private readonly settings: AccessSettings,
    private readonly transaction: FirmTransaction,
    private readonly jobs: JobService,
    private readonly clock: Clock,
    retention: RetentionService,
  ) {
    jobs.handle('notices', (job) => this.tell(job));
    jobs.handle('webhook', (job) => this.send(job));
    jobs.handle('visits-ahead', (job) => this.lookAhead(job));
    retention.add(async () => {
      await notices.deleteBefore(new Date(clock.now().getTime() - KEPT_MS));
      // It comes by itself from then on; of two that wait one is dropped.
      await jobs.enqueue('visits-ahead', {});
    });
  }

  private async tell({ firmId, data: happening, finish }: Job<JobData['notices']>): Promise<void> {
    const told = await this.transaction.run(firmId, 'read', async () => {
      const facts = await this.notices.findFacts(happening);
      return facts && { facts, listeners: await this.notices.listListeners(facts) };
    });
    await finish(async () => {
      if (told === null || told.listeners.length === 0) return;
      await this.tellAll(happeningKey(happening), told.facts, told.listeners);
    });
  }

  private async tellAll(key: string, facts: NoticeFacts, listeners: Addressee[]): Promise<void> {
    const now = this.clock.now();
    const ids = listeners.map(({ id }) => id);
    const noticeOf = await this.notices.insert(key, facts, ids, now);
    const mailed: string[] = [];
    for (const listener of listeners) {
      const noticeId = noticeOf.get(listener.id);
      if (noticeId === undefined) continue;
      if (listener.way === 'webhook') await this.jobs.enqueue('webhook', { noticeId });
      else {
        await this.mail(facts, listener);
        mailed.push(noticeId);
      }
    }
    if (mailed.length > 0) await this.notices.markSent(mailed, now);
  }

  private async mail(facts: NoticeFacts, listener: Addressee): Promise<void> {
    const { publicUrl } = this.settings;
    const words = noticeWordsIn(listener.language);
    const key = this.seals.open(listener.sealedSecret, listener.id);
    const { subject, text } = words.mail(facts);
    const place = PLACE_OF_TICKETS[listener.work];
    const link =
      'ticket' in facts && place !== null ? `\n${publicUrl}${place}/${facts.ticket.number}\n` : '';
    const wayOut = words.wayOut(`${publicUrl}/way-out#${key}`);
    await this.mails.post({
      recipient: listener.email,
      subject,
      text: `${text}\n${link}\n${wayOut}\n`,
      wayOut: `${publicUrl}/api/v1/notice-wishes/way-out?key=${key}`,
    });
  }

  /** Whoever takes it twice because this ended in between knows it by its `webhook-id`. */
  private async send({ firmId, data: { noticeId }, finish }: Job<JobData['webhook']>) {
    const found = await this.transaction.run(firmId, 'read', async () => {
      const notice = await this.notices.find(noticeId);
      return notice && { notice, wish: await this.wishes.find(notice.wishId) };
    });
    const wish = found?.wish;
    if (!wish || wish.endedAt !== null || wish.url === null || found.notice.sentAt !== null) {
      return finish(() => Promise.resolve());
    }
    const { facts, createdAt } = found.notice;
    const sentAt = this.clock.now();
    const { kind, ...data } = facts;
    const body = JSON.stringify({ type: kind, timestamp: createdAt.toISOString(), data });
    const secret = this.seals.open(wish.sealedSecret, wish.id);
    const status = await this.webhooks
      .send({ id: noticeId, url: wish.url, secret, sentAt, body })
      .catch((error: unknown) => String(error));
    const isTaken = typeof status === 'number' && status >= 200 && status < 300;
    if (isTaken || status === GONE) {
      return finish(async () => {
        await this.notices.countTry(noticeId);
        if (isTaken) await this.notices.update(noticeId, { sentAt, failure: null });
        // The scheme's word for: never again.
        else await this.wishes.end(wish.id, sentAt);
      });
    }
    const failure = typeof status === 'number' ? `it was answered ${status}` : status;
    await this.transaction.run(firmId, 'write', async () => {
      await this.notices.countTry(noticeId);
      await this.notices.update(noticeId, { failure });
    });
    throw new Error(failure);
  }

  private async lookAhead({ firmId, finish }: Job<JobData['visits-ahead']>): Promise<void> {
    const now = this.clock.now();
    const visits = await this.transaction.run(firmId, 'read', async () =>
      (await this.notices.isAwaited('visit-tomorrow'))
        ? this.notices.listVisitsAhead(now, TOLD_FROM_HOUR, MOST_VISITS)
        : [],
    );
    await finish(async () => {
      for (const { id: visitId, on } of visits) {
        await this.jobs.enqueue('notices', { kind: 'visit-tomorrow', visitId, on });
      }
      await this.jobs.enqueue('visits-ahead', {}, HOUR_SECONDS);
    });
  }
}
