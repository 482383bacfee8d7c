import { Injectable } from '@nestjs/common';
import type { AsBuilt } from './as-built.js';
import { AsBuiltService } from './as-built.service.js';
import type { SiteDto } from './site.dto.js';
import { SiteService } from './site.service.js';

/** What other features may ask about sites. */
@Injectable()
export class SitesService {
  constructor(
    private readonly sites: SiteService,
    private readonly asBuilt: AsBuiltService,
  ) {}

  /** The site, with the number of its current as-built version; else a not-found error. */
  get(siteId: string): Promise<SiteDto> {
    return this.sites.get(siteId);
  }

  /** In one statement, in the order of the ids, each as `get` gives it. */
  listOfIds(siteIds: readonly string[]): Promise<SiteDto[]> {
    return this.sites.listOfIds(siteIds);
  }

  /** The site, which nobody else changes until the transaction ends. */
  lockSite(siteId: string): Promise<SiteDto> {
    return this.sites.lock(siteId);
  }

  /**
   * What is installed there: now, or as the version says that something names which whoever asks has read. It is shared
   * with others, and nobody changes it.
   */
  drawing(siteId: string, version?: number): Promise<AsBuilt> {
    return version === undefined
      ? this.asBuilt.drawing(siteId)
      : this.asBuilt.drawingOf(siteId, version);
  }
}
