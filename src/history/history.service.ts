import { Injectable } from '@nestjs/common';
import { HistoryRepository } from './history.repository.js';
import { LearnedRateRepository } from './learned-rate.repository.js';
import type { LearnedAtSites } from './learned-rates.js';

/** What a site's past says of its parts. */
@Injectable()
export class HistoryService {
  constructor(
    private readonly history: HistoryRepository,
    private readonly rates: LearnedRateRepository,
  ) {}

  /** What the firm's record says of how often parts fail, as far as it is about some sites. Empty: nothing was ever mended. */
  ratesAt(siteIds: readonly string[]): Promise<LearnedAtSites[]> {
    return this.rates.ofSites(siteIds);
  }

  /** What was heard at the site of a ticket before an instant: see `HistoryRepository`. */
  heardBefore(siteId: string, ticketId: string, before: Date): Promise<string> {
    return this.history.heardBefore(siteId, ticketId, before);
  }
}
