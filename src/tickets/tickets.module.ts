import { Module } from '@nestjs/common';
import { LooksModule } from '../looks/looks.module.js';
import { ReadingsModule } from '../readings/readings.module.js';
import { ReportsModule } from '../reports/reports.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { MendingWithdrawalRepository } from './mending-withdrawal.repository.js';
import { MendingWithdrawalService } from './mending-withdrawal.service.js';
import { ReportService } from './report.service.js';
import { TicketDescriptionRepository } from './ticket-description.repository.js';
import { TicketEntryRepository } from './ticket-entry.repository.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketLookController } from './ticket-look.controller.js';
import { TicketLookService } from './ticket-look.service.js';
import { TicketMergeService } from './ticket-merge.service.js';
import { TicketMoveService } from './ticket-move.service.js';
import { TicketWorkController } from './ticket-work.controller.js';
import { TicketWorkService } from './ticket-work.service.js';
import { TicketController } from './ticket.controller.js';
import { TicketRecordService } from './ticket-record.service.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';
import { WithdrawalService } from './withdrawal.service.js';

@Module({
  imports: [LooksModule, ReadingsModule, ReportsModule, SitesModule],
  controllers: [TicketController, TicketLookController, TicketWorkController],
  providers: [
    MendingWithdrawalRepository,
    MendingWithdrawalService,
    ReportService,
    TicketDescriptionRepository,
    TicketEntryRepository,
    TicketLogService,
    TicketLookService,
    TicketMergeService,
    TicketMoveService,
    TicketRecordService,
    TicketRepository,
    TicketService,
    TicketWorkService,
    WithdrawalService,
  ],
  exports: [
    MendingWithdrawalService,
    ReportService,
    TicketLogService,
    TicketLookService,
    TicketMoveService,
    TicketService,
    TicketWorkService,
  ],
})
export class TicketsModule {}
