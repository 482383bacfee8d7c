import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { SitesService } from '../sites/sites.service.js';
import { ContractService } from './contract.service.js';
import { siteDay } from './coverage.js';
import { flawsOfCover, inForceOn } from './site-cover.js';
import type { SiteCoverDto } from './site-cover.dto.js';

/** Says by which contracts a site is covered. */
@Injectable()
export class SiteCoverService {
  constructor(
    private readonly contracts: ContractService,
    private readonly sites: SitesService,
    private readonly clock: Clock,
  ) {}

  async cover(siteId: string): Promise<SiteCoverDto> {
    const { zone } = await this.sites.get(siteId);
    const contracts = await this.contracts.listOfSite(siteId);
    const periods = contracts.map(({ id, title, kind, from, until, exclusions }) => {
      return { contractId: id, title, kind, from, until, exclusions };
    });
    const today = siteDay(zone, this.clock.now().getTime());
    const inForce = inForceOn(periods, today)?.contractId ?? null;
    return { periods, inForce, ...flawsOfCover(periods) };
  }
}
