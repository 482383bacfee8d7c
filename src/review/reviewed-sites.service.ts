import { Injectable } from '@nestjs/common';
import { SitesService } from '../sites/sites.service.js';
import type { ReviewedSite } from './review-question.js';

/** Sites with what is installed there, by name; within a transaction. A drawing that nobody read lately is a statement. */
@Injectable()
export class ReviewedSitesService {
  constructor(private readonly sites: SitesService) {}

  async read(siteIds: readonly string[]): Promise<ReviewedSite[]> {
    const sites: ReviewedSite[] = [];
    for (const site of await this.sites.listOfIds(siteIds)) {
      const { id: siteId, name, zone, asBuiltVersion } = site;
      const asBuilt = await this.sites.drawing(siteId, asBuiltVersion);
      sites.push({ siteId, name, zone, asBuilt });
    }
    return sites.sort((one, other) => one.name.localeCompare(other.name, 'en'));
  }
}
