import { Injectable } from '@nestjs/common';
import { SitesService } from '../sites/sites.service.js';
import type { FoundAtSiteListDto } from './found-at-site.dto.js';
import { HistoryRepository, type PastTexts } from './history.repository.js';
import { LearnedRateRepository } from './learned-rate.repository.js';
import type { LearnedAtSites } from './learned-rates.js';

/** Older findings than these are left out, and counted. */
const MOST_FOUND = 500;

/** What a site's past says of its parts. */
@Injectable()
export class HistoryService {
  constructor(
    private readonly history: HistoryRepository,
    private readonly rates: LearnedRateRepository,
    private readonly sites: SitesService,
  ) {}

  /** What the firm's record says of how often parts fail, as far as it is about some sites. Empty: nothing was ever mended. */
  ratesAt(siteIds: readonly string[]): Promise<LearnedAtSites[]> {
    return this.rates.ofSites(siteIds);
  }

  /** What was ever found at fault there, newest first. */
  async foundAt(siteId: string): Promise<FoundAtSiteListDto> {
    await this.sites.get(siteId);
    const { items, count } = await this.history.foundAt(siteId, MOST_FOUND);
    return { items, more: count - items.length };
  }

  /** What was heard and done at the site of a ticket before an instant: see `HistoryRepository`. */
  pastOf(siteId: string, ticketId: string, before: Date): Promise<PastTexts> {
    return this.history.pastOf(siteId, ticketId, before);
  }
}
