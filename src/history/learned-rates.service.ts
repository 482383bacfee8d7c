import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { SitesService } from '../sites/sites.service.js';
import { MODEL_RATES, ratesByRecord, type RatesOf } from './learned-rates.js';
import { HistoryRepository } from './history.repository.js';
import { foundBy } from './work-done.js';

/** The rates that a firm's own findings teach. */
@Injectable()
export class LearnedRatesService {
  /** What was last learned of each firm, and from what; it is looked up each time whether that still holds. */
  private readonly learned = new Map<string, { from: string; rates: RatesOf }>();

  constructor(
    private readonly record: HistoryRepository,
    private readonly sites: SitesService,
    private readonly clock: Clock,
  ) {}

  async rates(): Promise<RatesOf> {
    const state = await this.record.state();
    if (state.mendings === 0 || state.firstOpenedAt === null) return MODEL_RATES;
    const today = new Date(this.clock.now().toISOString().slice(0, 10));
    const from = JSON.stringify([state, await this.sites.recordState(), today]);
    const known = this.learned.get(state.firmId);
    if (known?.from === from) return known.rates;
    const rates = await this.learn(state.firstOpenedAt, today);
    this.learned.set(state.firmId, { from, rates });
    return rates;
  }

  private async learn(since: Date, today: Date): Promise<RatesOf> {
    const entries = await this.record.workOnClosedTickets();
    const drawings = await this.sites.drawings();
    const sites = drawings.map(({ siteId, asBuilt }) => ({
      siteId,
      asBuilt,
      found: foundBy(entries.filter((entry) => entry.siteId === siteId)),
    }));
    return ratesByRecord(sites, since, today);
  }
}
