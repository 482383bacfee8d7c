import { Injectable } from '@nestjs/common';
import { AccessSettings } from '../access/access-settings.js';
import { SecretService } from '../access/secret.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import { PersonService } from '../people/person.service.js';
import { personIdOf, type Principal } from '../people/principal.js';
import { Clock } from '../shared/clock.js';
import {
  EndedError,
  ForbiddenError,
  InvalidInputError,
  NotFoundError,
} from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { SitesService } from '../sites/sites.service.js';
import type {
  CalendarFeedDto,
  CreateCalendarFeedDto,
  NewCalendarFeedDto,
} from './calendar-feed.dto.js';
import type { CalendarFeed } from './calendar-feed.entity.js';
import { CalendarFeedRepository } from './calendar-feed.repository.js';
import { visitsAsCalendar } from './visits-as-calendar.js';

const SECRET_BYTES = 24;
/** Programs ask each quarter of an hour: when one last did is kept no finer. */
const READ_AGAIN_MS = 10 * 60_000;
const DAY_MS = 24 * 3_600_000;

/** Days before and after today that a calendar shows. */
const SHOWN = { before: 30, after: 400 };

/** Secret links by which calendar programs read visits. */
@Injectable()
export class CalendarFeedService {
  constructor(
    private readonly feeds: CalendarFeedRepository,
    private readonly people: PersonService,
    private readonly sites: SitesService,
    private readonly secrets: SecretService,
    private readonly settings: AccessSettings,
    private readonly transaction: FirmTransaction,
    private readonly clock: Clock,
  ) {}

  async create(
    principal: Principal,
    { technicianId, siteId }: CreateCalendarFeedDto,
  ): Promise<NewCalendarFeedDto> {
    if (technicianId !== undefined && siteId !== undefined) {
      const reason = 'is not given with technicianId: a calendar is somebody’s or a site’s';
      throw new InvalidInputError([{ field: '/siteId', reason }]);
    }
    const own = personIdOf(principal);
    const whose = siteId === undefined ? (technicianId ?? own) : null;
    if (principal.role === 'technician' && whose !== own) {
      throw new ForbiddenError('A technician makes a calendar of their own visits.');
    }
    if (whose !== null) await this.people.get(whose);
    if (siteId !== undefined) await this.sites.get(siteId);
    const secret = this.secrets.create(SECRET_BYTES);
    const feed = {
      id: idOrNew(undefined),
      technicianId: whose,
      siteId: siteId ?? null,
      madeById: own,
      createdAt: this.clock.now(),
      lastReadAt: null,
      endedAt: null,
    };
    await this.feeds.insert({ ...feed, secretHash: this.secrets.hash(secret) });
    const link = `${this.settings.publicUrl}/api/v1/calendar?key=${secret}`;
    return { ...toDto(feed, principal.personName), link };
  }

  /** A technician sees their own. */
  async list(principal: Principal): Promise<CalendarFeedDto[]> {
    const own = principal.role === 'technician' ? personIdOf(principal) : null;
    const feeds = await this.feeds.list(own);
    const makers = feeds.flatMap(({ madeById }) => madeById ?? []);
    const names = await this.feeds.namesOf([...new Set(makers)]);
    return feeds.map((feed) => toDto(feed, names.get(feed.madeById ?? '') ?? null));
  }

  async end(principal: Principal, id: string): Promise<void> {
    const feed = await this.feeds.find(id);
    const isOthers =
      principal.role === 'technician' && feed?.technicianId !== personIdOf(principal);
    if (feed === null || isOthers) throw new NotFoundError('calendar', id);
    await this.feeds.end(id, this.clock.now());
  }

  /** What a calendar program gets that shows the secret. */
  async show(secret: string): Promise<string> {
    const secretHash = this.secrets.hash(secret);
    const feed = await this.transaction.runFinding('secret_hash', secretHash, () =>
      this.feeds.findShown(secretHash),
    );
    if (feed === null) throw new NotFoundError('calendar', 'of this link');
    if (feed.endedAt !== null) throw new EndedError('This calendar was ended; ask for a new link.');
    const now = this.clock.now();
    const dayAt = (days: number) =>
      new Date(now.getTime() + days * DAY_MS).toISOString().slice(0, 10);
    const range = { from: dayAt(-SHOWN.before), until: dayAt(SHOWN.after) };
    const lately = new Date(now.getTime() - READ_AGAIN_MS);
    if (feed.lastReadAt === null || feed.lastReadAt <= lately) {
      await this.transaction.run(feed.firmId, 'write', () =>
        this.feeds.keepRead(feed.id, now, lately),
      );
    }
    return this.transaction.run(feed.firmId, 'read', async () =>
      visitsAsCalendar(await this.nameOf(feed), await this.feeds.visitsOf(feed, range), now),
    );
  }

  private async nameOf({ technicianId, siteId }: CalendarFeed): Promise<string> {
    if (siteId !== null) return `Visits: ${(await this.sites.get(siteId)).name}`;
    return technicianId === null ? '' : `Visits: ${(await this.people.get(technicianId)).name}`;
  }
}

function toDto(
  {
    id,
    technicianId,
    siteId,
    createdAt,
    lastReadAt,
    endedAt,
  }: Omit<CalendarFeed, 'firmId' | 'secretHash'>,
  madeBy: string | null,
): CalendarFeedDto {
  return { id, technicianId, siteId, createdAt, madeBy, lastReadAt, endedAt };
}
