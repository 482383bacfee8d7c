import { Module } from '@nestjs/common';
import { ContractsModule } from '../contracts/contracts.module.js';
import { LocatingModule } from '../locating/locating.module.js';
import { PeopleModule } from '../people/people.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { VisitsModule } from '../visits/visits.module.js';
import { WalksModule } from '../walks/walks.module.js';
import { DayFactsRepository } from './day-facts.repository.js';
import { DayPlanController } from './day-plan.controller.js';
import { DayPlanService } from './day-plan.service.js';
import { JobSheetController } from '../job-sheets/job-sheet.controller.js';
import { JobSheetFactsRepository } from '../job-sheets/job-sheet-facts.repository.js';
import { JobSheetService } from '../job-sheets/job-sheet.service.js';
import { PlanningController } from './planning.controller.js';
import { PlanningRepository } from './planning.repository.js';
import { PlanningService } from './planning.service.js';
import { QuarterFactsRepository } from './quarter-facts.repository.js';
import { QuarterPlanController } from './quarter-plan.controller.js';
import { QuarterPlanService } from './quarter-plan.service.js';

@Module({
  imports: [
    ContractsModule,
    LocatingModule,
    PeopleModule,
    SitesModule,
    VisitsModule,
    WalksModule,
  ],
  controllers: [
    DayPlanController,
    JobSheetController,
    PlanningController,
    QuarterPlanController,
  ],
  providers: [
    DayFactsRepository,
    DayPlanService,
    JobSheetFactsRepository,
    JobSheetService,
    PlanningRepository,
    PlanningService,
    QuarterFactsRepository,
    QuarterPlanService,
  ],
})
export class DispatchModule {}
