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

  /** The site, which nobody else changes until the transaction ends. */
  lockSite(siteId: string): Promise<SiteDto> {
    return this.sites.lock(siteId);
  }

  /** What is installed there as one version says; left out: the current one. */
  drawing(siteId: string, version?: number): Promise<AsBuilt> {
    return this.asBuilt.drawing(siteId, version);
  }

  /** What is installed at every site now. */
  drawings(): Promise<{ siteId: string; asBuilt: AsBuilt }[]> {
    return this.asBuilt.currentDrawings();
  }

  /** A text that changes whenever any site’s record does. */
  recordState(): Promise<string> {
    return this.asBuilt.recordState();
  }
}
