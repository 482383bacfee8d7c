import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { LocateController } from './locate.controller.js';
import { LocateService } from './locate.service.js';
import { LocationService } from './location.service.js';
import { ObservationRepository } from './observation.repository.js';
import { ObservationService } from './observation.service.js';
import { ReportController } from './report.controller.js';
import { ReportService } from './report.service.js';
import { TicketEntryRepository } from './ticket-entry.repository.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketMergeService } from './ticket-merge.service.js';
import { TicketMoveService } from './ticket-move.service.js';
import { TicketWorkController } from './ticket-work.controller.js';
import { TicketWorkService } from './ticket-work.service.js';
import { TicketController } from './ticket.controller.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';

@Module({
  imports: [SitesModule],
  controllers: [LocateController, ReportController, TicketController, TicketWorkController],
  providers: [
    LocateService,
    LocationService,
    ObservationRepository,
    ObservationService,
    ReportService,
    TicketEntryRepository,
    TicketLogService,
    TicketMergeService,
    TicketMoveService,
    TicketRepository,
    TicketService,
    TicketWorkService,
  ],
  exports: [ReportService, TicketService],
})
export class TicketsModule {}
