import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { ClosedCalendarController } from './closed-calendar.controller.js';
import { ClosedCalendarRepository } from './closed-calendar.repository.js';
import { ClosedCalendarService } from './closed-calendar.service.js';
import { ContractReferenceService } from './contract-reference.service.js';
import { ContractController } from './contract.controller.js';
import { ContractRepository } from './contract.repository.js';
import { ContractService } from './contract.service.js';
import { SiteCoverController } from './site-cover.controller.js';
import { SiteCoverService } from './site-cover.service.js';

@Module({
  imports: [SitesModule],
  controllers: [ClosedCalendarController, ContractController, SiteCoverController],
  providers: [
    ClosedCalendarRepository,
    ClosedCalendarService,
    ContractReferenceService,
    ContractRepository,
    ContractService,
    SiteCoverService,
  ],
})
export class ContractsModule {}
