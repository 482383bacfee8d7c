import { Injectable } from '@nestjs/common';
import type { Proof, SiteRecord } from '../locator/index.js';
import type { AsBuilt } from '../sites/as-built.js';
import { siteRecord } from './component-history.js';
import { HistoryRepository } from './history.repository.js';
import { LearnedRatesService } from './learned-rates.service.js';
import { toProofs } from './proofs.js';
import { foundBy } from './work-done.js';

/** What a site's past says of its parts. */
@Injectable()
export class HistoryService {
  constructor(
    private readonly history: HistoryRepository,
    private readonly learned: LearnedRatesService,
  ) {}

  /** As it was known just before an instant, of the site of a ticket. */
  async before(
    { id: ticketId, siteId }: { id: string; siteId: string },
    drawing: AsBuilt,
    now: Date,
  ): Promise<{ proofs: Proof[]; components: SiteRecord }> {
    const heard = await this.history.heardBefore(siteId, ticketId, now);
    const proofs = toProofs(drawing, heard, now);
    const found = foundBy(await this.history.workAt(siteId));
    const given = { siteId, asBuilt: drawing, proofs, found };
    return { proofs, components: siteRecord(given, await this.learned.rates(), now) };
  }
}
