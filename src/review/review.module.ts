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

@Module({
  imports: [ContractsModule, HistoryModule, PromisesModule, SitesModule, WorkTimesModule],
  controllers: [ReviewController],
  providers: [FirmCostsService, ReviewRepository, ReviewService],
})
export class ReviewModule {}
