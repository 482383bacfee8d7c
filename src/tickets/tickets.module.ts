import { Module } from '@nestjs/common';
import { ReadingsModule } from '../readings/readings.module.js';
import { ReportsModule } from '../reports/reports.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { ReportService } from './report.service.js';
import { TicketDescriptionRepository } from './ticket-description.repository.js';
import { TicketEntryRepository } from './ticket-entry.repository.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketMergeService } from './ticket-merge.service.js';
import { TicketMoveService } from './ticket-move.service.js';
import { TicketWorkController } from './ticket-work.controller.js';
import { TicketWorkService } from './ticket-work.service.js';
import { TicketController } from './ticket.controller.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';
import { WithdrawalService } from './withdrawal.service.js';

@Module({
  imports: [ReadingsModule, ReportsModule, SitesModule],
  controllers: [TicketController, TicketWorkController],
  providers: [
    ReportService,
    TicketDescriptionRepository,
    TicketEntryRepository,
    TicketLogService,
    TicketMergeService,
    TicketMoveService,
    TicketRepository,
    TicketService,
    TicketWorkService,
    WithdrawalService,
  ],
  exports: [ReportService, TicketLogService, TicketService, TicketWorkService],
})
export class TicketsModule {}
