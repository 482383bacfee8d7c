import { Module } from '@nestjs/common';
import { ContractsModule } from '../contracts/contracts.module.js';
import { HistoryModule } from '../history/history.module.js';
import { PromisesModule } from '../promises/promises.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { WorkTimesModule } from '../work-times/work-times.module.js';
import { FirmCostsService } from './firm-costs.service.js';
import { ReviewController } from './review.controller.js';
import { ReviewRepository } from './review.repository.js';
import { ReviewService } from './review.service.js';
import { ReviewedSitesService } from './reviewed-sites.service.js';
import { ShouldCostController } from './should-cost.controller.js';
import { ShouldCostService } from './should-cost.service.js';

@Module({
  imports: [ContractsModule, HistoryModule, PromisesModule, SitesModule, WorkTimesModule],
  controllers: [ReviewController, ShouldCostController],
  providers: [
    FirmCostsService,
    ReviewedSitesService,
    ReviewRepository,
    ReviewService,
    ShouldCostService,
  ],
})
export class ReviewModule {}
