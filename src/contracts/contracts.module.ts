import { Global, Module } from '@nestjs/common';
import { TicketsModule } from '../tickets/tickets.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { ClosedCalendarController } from './closed-calendar.controller.js';
import { ClosedCalendarRepository } from './closed-calendar.repository.js';
import { ClosedCalendarService } from './closed-calendar.service.js';
import { ContractReferenceService } from './contract-reference.service.js';
import { ContractController } from './contract.controller.js';
import { ContractRepository } from './contract.repository.js';
import { ContractService } from './contract.service.js';
import { ContractsService } from './contracts.service.js';
import { AgreedHours } from '../visits/agreed-hours.js';
import { VisitsModule } from '../visits/visits.module.js';
import { ContractAccountController } from './contract-account.controller.js';
import { ContractAccountRepository } from './contract-account.repository.js';
import { ContractAccountService } from './contract-account.service.js';
import { AgreedHoursService } from './agreed-hours.service.js';
import { ContractVisitController } from './contract-visit.controller.js';
import { ContractVisitService } from './contract-visit.service.js';
import { SiteCoverController } from './site-cover.controller.js';
import { UpkeepRepository } from './upkeep.repository.js';
import { SiteCoverService } from './site-cover.service.js';

/** Global, so that visits, which it stands on, are given the agreed hours. */
@Global()
@Module({
  imports: [SitesModule, TicketsModule, VisitsModule],
  controllers: [
    ContractAccountController,
    ClosedCalendarController,
    ContractController,
    ContractVisitController,
    SiteCoverController,
  ],
  providers: [
    ContractAccountRepository,
    ContractAccountService,
    AgreedHoursService,
    { provide: AgreedHours, useExisting: AgreedHoursService },
    ContractVisitService,
    ClosedCalendarRepository,
    ClosedCalendarService,
    ContractReferenceService,
    ContractRepository,
    ContractService,
    ContractsService,
    SiteCoverService,
    UpkeepRepository,
  ],
  exports: [
    AgreedHours,
    ContractAccountService,
    ContractService,
    ContractsService,
    ContractVisitService,
  ],
})
export class ContractsModule {}
