import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { LearnedRatesService } from './learned-rates.service.js';
import { LocateController } from './locate.controller.js';
import { LocateService } from './locate.service.js';
import { LocationService } from './location.service.js';
import { ObservationRepository } from './observation.repository.js';
import { ObservationService } from './observation.service.js';
import { PredictionRepository } from './prediction.repository.js';
import { PredictionService } from './prediction.service.js';
import { ProvenPointRepository } from './proven-point.repository.js';
import { ProvenPointService } from './proven-point.service.js';
import { RecordRepository } from './record.repository.js';
import { ReportController } from './report.controller.js';
import { ReportService } from './report.service.js';
import { TicketEntryRepository } from './ticket-entry.repository.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketMergeService } from './ticket-merge.service.js';
import { TicketMoveService } from './ticket-move.service.js';
import { TicketReadingRepository } from './ticket-reading.repository.js';
import { TicketReadingService } from './ticket-reading.service.js';
import { TicketWorkController } from './ticket-work.controller.js';
import { TicketWorkService } from './ticket-work.service.js';
import { TicketController } from './ticket.controller.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';
import { WalkService } from './walk.service.js';
import { WalkThreadService } from './walk-thread.service.js';
import { WithdrawalService } from './withdrawal.service.js';

@Module({
  imports: [SitesModule],
  controllers: [LocateController, ReportController, TicketController, TicketWorkController],
  providers: [
    LearnedRatesService,
    LocateService,
    LocationService,
    ObservationRepository,
    ObservationService,
    PredictionRepository,
    PredictionService,
    ProvenPointRepository,
    ProvenPointService,
    RecordRepository,
    ReportService,
    TicketEntryRepository,
    TicketLogService,
    TicketMergeService,
    TicketMoveService,
    TicketReadingRepository,
    TicketReadingService,
    TicketRepository,
    TicketService,
    TicketWorkService,
    WalkService,
    WalkThreadService,
    WithdrawalService,
  ],
  exports: [
    LocationService,
    PredictionService,
    ProvenPointService,
    ReportService,
    TicketService,
    TicketWorkService,
  ],
})
export class TicketsModule {}
