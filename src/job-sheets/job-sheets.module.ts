import { Module } from '@nestjs/common';
import { LocatingModule } from '../locating/locating.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { VansModule } from '../vans/vans.module.js';
import { VisitsModule } from '../visits/visits.module.js';
import { WalksModule } from '../walks/walks.module.js';
import { JobSheetController } from './job-sheet.controller.js';
import { JobSheetFactsRepository } from './job-sheet-facts.repository.js';
import { JobSheetService } from './job-sheet.service.js';

@Module({
  imports: [LocatingModule, SitesModule, VansModule, VisitsModule, WalksModule],
  controllers: [JobSheetController],
  providers: [JobSheetFactsRepository, JobSheetService],
})
export class JobSheetsModule {}
