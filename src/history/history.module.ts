import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { FoundAtSiteController } from './found-at-site.controller.js';
import { HistoryRepository } from './history.repository.js';
import { HistoryService } from './history.service.js';
import { LearnedErrorsRepository } from './learned-errors.repository.js';
import { LearnedPartsRepository } from './learned-parts.repository.js';
import { LearnedRateRepository } from './learned-rate.repository.js';
import { LearnedRatesService } from './learned-rates.service.js';
import { WorkNearbyController } from './work-nearby.controller.js';
import { WorkNearbyRepository } from './work-nearby.repository.js';
import { WorkNearbyService } from './work-nearby.service.js';
import { ProvenPointRepository } from './proven-point.repository.js';
import { ProvenPointService } from './proven-point.service.js';

@Module({
  imports: [SitesModule],
  controllers: [FoundAtSiteController, WorkNearbyController],
  providers: [
    WorkNearbyRepository,
    WorkNearbyService,
    HistoryRepository,
    HistoryService,
    LearnedErrorsRepository,
    LearnedPartsRepository,
    LearnedRateRepository,
    LearnedRatesService,
    ProvenPointRepository,
    ProvenPointService,
  ],
  exports: [HistoryService, ProvenPointService, WorkNearbyService],
})
export class HistoryModule {}
