import { Injectable } from '@nestjs/common';
import { AccessSettings } from '../access/access-settings.js';
import { SealService } from '../access/seal.service.js';
import { SecretService } from '../access/secret.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { personIdOf, type Principal } from '../people/principal.js';
import { Clock } from '../shared/clock.js';
import {
  ConflictError,
  ForbiddenError,
  InvalidInputError,
  NotFoundError,
} from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { currentLanguage } from '../shared/request-language.js';
import { SitesService } from '../sites/sites.service.js';
import type {
  CreateNoticeWishDto,
  NewNoticeWishDto,
  NoticeDto,
  NoticeWishDto,
} from './notice-wish.dto.js';
import type { NoticeWish } from './notice-wish.entity.js';
import { NoticeWishRepository } from './notice-wish.repository.js';
import { NoticeRepository } from './notice.repository.js';
import { refuseWebhookUrl } from './webhook-url.js';

/** Open wishes of one person, and of a firm. */
const MOST_OF_ONE = 20;
const MOST_OF_A_FIRM = 500;

/** The Standard Webhooks scheme: `whsec_` and 24 to 64 bytes in base 64. */
const SIGNING_SECRET_BYTES = 32;
const WAY_OUT_BYTES = 24;

/** Keeps what people asked to be told of. */
@Injectable()
export class NoticeWishService {
  constructor(
    private readonly wishes: NoticeWishRepository,
    private readonly notices: NoticeRepository,
    private readonly sites: SitesService,
    private readonly secrets: SecretService,
    private readonly seals: SealService,
    private readonly settings: AccessSettings,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  async create(principal: Principal, asked: CreateNoticeWishDto): Promise<NewNoticeWishDto> {
    const { way, kinds, siteId = null, url = null, language = currentLanguage() } = asked;
    if (way === 'webhook' && principal.role !== 'owner') {
      throw new ForbiddenError('What goes to a system of the firm is the owner’s to ask for.');
    }
    const field = '/url';
    if (way === 'mail' && url !== null) {
      throw new InvalidInputError([
        { field, reason: 'is for webhooks; a mail goes to your own address' },
      ]);
    }
    const refusal = way === 'mail' ? null : refuseWebhookUrl(url, this.settings.reachesPrivate);
    if (refusal !== null) throw new InvalidInputError([{ field, reason: refusal }]);
    if (siteId !== null) await this.sites.get(siteId);
    const personId = personIdOf(principal);
    await this.refuseTooMany(personId);
    const secret =
      way === 'webhook'
        ? `whsec_${Buffer.from(this.secrets.create(SIGNING_SECRET_BYTES), 'base64url').toString('base64')}`
        : this.secrets.create(WAY_OUT_BYTES);
    const id = idOrNew(asked.id);
    const wish: Omit<NoticeWish, 'firmId'> = {
      id,
      personId,
      way,
      kinds,
      siteId,
      language,
      url,
      sealedSecret: this.seals.seal(secret, id),
      secretHash: this.secrets.hash(secret),
      createdAt: this.clock.now(),
      endedAt: null,
    };
    await this.wishes.insert(wish);
    return { ...toDto(wish), signingSecret: way === 'webhook' ? secret : null };
  }

  /** Their own; an owner sees all. */
  async list(principal: Principal): Promise<NoticeWishDto[]> {
    const own = principal.role === 'owner' ? null : personIdOf(principal);
    return (await this.wishes.list(own)).map(toDto);
  }

  async listNotices(principal: Principal, id: string): Promise<NoticeDto[]> {
    await this.find(principal, id);
    const notices = await this.notices.listOfWish(id);
    return notices.map(({ id: noticeId, facts, createdAt, sentAt, tries, failure }) => {
      return { id: noticeId, kind: facts.kind, createdAt, sentAt, tries, failure };
    });
  }

  async end(principal: Principal, id: string): Promise<void> {
    await this.find(principal, id);
    await this.wishes.end(id, this.clock.now());
  }

  /** By the link in a mail, without signing in: whoever has the mail may end it, and do nothing else. */
  async leave(key: string): Promise<void> {
    const secretHash = this.secrets.hash(key);
    const wish = await this.transaction.runFinding('secret_hash', secretHash, () =>
      this.wishes.findShown(secretHash),
    );
    if (wish === null || wish.way !== 'mail') throw new NotFoundError('wish', 'of this link');
    await this.transaction.run(wish.firmId, 'write', () =>
      this.wishes.end(wish.id, this.clock.now()),
    );
  }

  private async find(principal: Principal, id: string): Promise<NoticeWish> {
    const wish = await this.wishes.find(id);
    const isOthers = principal.role !== 'owner' && wish?.personId !== principal.personId;
    if (wish === null || isOthers) throw new NotFoundError('wish', id);
    return wish;
  }

  private async refuseTooMany(personId: string): Promise<void> {
    const { own, all } = await this.wishes.countOpen(personId);
    if (own < MOST_OF_ONE && all < MOST_OF_A_FIRM) return;
    throw new ConflictError(
      `One person may have ${MOST_OF_ONE} of these, a firm ${MOST_OF_A_FIRM}; end another first.`,
      { own, all },
    );
  }
}

function toDto({
  sealedSecret: _sealed,
  secretHash: _hash,
  ...wish
}: Omit<NoticeWish, 'firmId'> & { firmId?: string }): NoticeWishDto {
  const { firmId: _firmId, ...told } = wish;
  return told;
}
