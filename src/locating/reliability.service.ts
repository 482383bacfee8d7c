import { Injectable } from '@nestjs/common';
import type { Place } from '../locator/index.js';
import { SitesService } from '../sites/sites.service.js';
import { PredictionService } from './prediction.service.js';
import { placeParts } from '../history/work-done.js';
import type { ReliabilityDto, ReliabilityQueryDto } from './reliability.dto.js';
import { reliabilityOf } from '../statistics/reliability.js';

@Injectable()
export class ReliabilityService {
  constructor(
    private readonly predictions: PredictionService,
    private readonly sites: SitesService,
  ) {}

  async reliability({ site, from, until }: ReliabilityQueryDto): Promise<ReliabilityDto> {
    if (site !== undefined) await this.sites.get(site);
    const { tickets, cases } = await this.predictions.casesClosed({ siteId: site, from, until });
    const named = cases.map(({ predicted, found }) => ({
      predicted:
        predicted?.map(({ place, probability }) => ({ place: nameOf(place), probability })) ?? null,
      found: found.map(nameOf),
    }));
    return { tickets, ...reliabilityOf(named) };
  }
}

function nameOf(place: Place): string {
  return JSON.stringify(placeParts(place));
}
