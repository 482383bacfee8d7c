import { Module } from '@nestjs/common';
import { ContractsModule } from '../contracts/contracts.module.js';
import { LocatingModule } from '../locating/locating.module.js';
import { PeopleModule } from '../people/people.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { VisitsModule } from '../visits/visits.module.js';
import { VansModule } from '../vans/vans.module.js';
import { WorkTimesModule } from '../work-times/work-times.module.js';
import { WalksModule } from '../walks/walks.module.js';
import { DayFactsRepository } from './day-facts.repository.js';
import { DayPlanController } from './day-plan.controller.js';
import { DayPlanService } from './day-plan.service.js';
import { PlanningController } from './planning.controller.js';
import { PlanningRepository } from './planning.repository.js';
import { PlanningService } from './planning.service.js';
import { QuarterFactsRepository } from './quarter-facts.repository.js';
import { QuarterPlanController } from './quarter-plan.controller.js';
import { QuarterWishService } from './quarter-wish.service.js';
import { QuarterPlanService } from './quarter-plan.service.js';

@Module({
  imports: [
    ContractsModule,
    LocatingModule,
    PeopleModule,
    SitesModule,
    VansModule,
    VisitsModule,
    WalksModule,
    WorkTimesModule,
  ],
  controllers: [DayPlanController, PlanningController, QuarterPlanController],
  providers: [
    DayFactsRepository,
    DayPlanService,
    PlanningRepository,
    PlanningService,
    QuarterFactsRepository,
    QuarterPlanService,
    QuarterWishService,
  ],
})
export class DispatchModule {}
