import { Module } from '@nestjs/common';
import { ContractsModule } from '../contracts/contracts.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { TicketsModule } from '../tickets/tickets.module.js';
import { ContractClockController } from './contract-clock.controller.js';
import { KeptClockService } from './kept-clock.service.js';
import { PromiseClockService } from './promise-clock.service.js';
import { TicketClockRepository } from './ticket-clock.repository.js';
import { TicketPromiseController } from './ticket-promise.controller.js';
import { TicketPromiseService } from './ticket-promise.service.js';

@Module({
  imports: [ContractsModule, SitesModule, TicketsModule],
  controllers: [ContractClockController, TicketPromiseController],
  providers: [KeptClockService, PromiseClockService, TicketClockRepository, TicketPromiseService],
  exports: [PromiseClockService],
})
export class PromisesModule {}
