import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { LearnedRatesService } from '../history/learned-rates.service.js';
import { LocateController } from '../locating/locate.controller.js';
import { LocateService } from '../locating/locate.service.js';
import { LocationService } from '../locating/location.service.js';
import { ObservationRepository } from '../reports/observation.repository.js';
import { ObservationService } from '../reports/observation.service.js';
import { PredictionRepository } from '../locating/prediction.repository.js';
import { PredictionService } from '../locating/prediction.service.js';
import { ProvenPointRepository } from '../history/proven-point.repository.js';
import { ProvenPointService } from '../history/proven-point.service.js';
import { RecordRepository } from '../history/history.repository.js';
import { ReportController } from '../locating/report.controller.js';
import { ReportService } from './report.service.js';
import { TicketEntryRepository } from './ticket-entry.repository.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketMergeService } from './ticket-merge.service.js';
import { TicketMoveService } from './ticket-move.service.js';
import { TicketReadingRepository } from '../readings/ticket-reading.repository.js';
import { TicketReadingService } from '../readings/ticket-reading.service.js';
import { TicketWorkController } from './ticket-work.controller.js';
import { TicketWorkService } from './ticket-work.service.js';
import { TicketController } from './ticket.controller.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';
import { WalkService } from '../locating/walk.service.js';
import { WalkThreadService } from '../locating/walk-thread.service.js';
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
