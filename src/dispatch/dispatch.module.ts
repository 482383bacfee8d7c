import { Module } from '@nestjs/common';
import { LocatingModule } from '../locating/locating.module.js';
import { PeopleModule } from '../people/people.module.js';
import { VisitsModule } from '../visits/visits.module.js';
import { DayFactsRepository } from './day-facts.repository.js';
import { DayPlanController } from './day-plan.controller.js';
import { DayPlanService } from './day-plan.service.js';
import { PlanningController } from './planning.controller.js';
import { PlanningRepository } from './planning.repository.js';
import { PlanningService } from './planning.service.js';

@Module({
  imports: [LocatingModule, PeopleModule, VisitsModule],
  controllers: [DayPlanController, PlanningController],
  providers: [DayFactsRepository, DayPlanService, PlanningRepository, PlanningService],
})
export class DispatchModule {}
