import { Injectable } from '@nestjs/common';
import { SitesService } from '../sites/sites.service.js';
import type { ReviewedSite } from './review-question.js';

/** Sites with what is installed there, by name; within a transaction. */
@Injectable()
export class ReviewedSitesService {
  constructor(private readonly sites: SitesService) {}

  async read(siteIds: readonly string[]): Promise<ReviewedSite[]> {
    const sites: ReviewedSite[] = [];
    for (const siteId of siteIds) {
      const { name, zone } = await this.sites.get(siteId);
      sites.push({ siteId, name, zone, asBuilt: await this.sites.drawing(siteId) });
    }
    return sites.sort((one, other) => one.name.localeCompare(other.name, 'en'));
  }
}
