import { Global, Module } from '@nestjs/common';
import { HistoryModule } from '../history/history.module.js';
import { ReadingsModule } from '../readings/readings.module.js';
import { ReportsModule } from '../reports/reports.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { PredictionKeeper } from '../tickets/prediction-keeper.js';
import { TicketsModule } from '../tickets/tickets.module.js';
import { LocateController } from './locate.controller.js';
import { LocateService } from './locate.service.js';
import { LocationController } from './location.controller.js';
import { LocationService } from './location.service.js';
import { PredictionRepository } from './prediction.repository.js';
import { PredictionService } from './prediction.service.js';
import { ReliabilityController } from './reliability.controller.js';
import { ReliabilityService } from './reliability.service.js';
import { ReportAnswerService } from './report-answer.service.js';
import { ReportController } from './report.controller.js';
import { KeptLocationService } from './kept-location.service.js';
import { TicketFactsRepository } from './ticket-facts.repository.js';
import { TicketLocationRepository } from './ticket-location.repository.js';

/** Global, so that tickets, which it stands on, are given what keeps the predictions. */
@Global()
@Module({
  imports: [HistoryModule, ReadingsModule, ReportsModule, SitesModule, TicketsModule],
  controllers: [LocateController, LocationController, ReliabilityController, ReportController],
  providers: [
    LocateService,
    LocationService,
    PredictionRepository,
    PredictionService,
    { provide: PredictionKeeper, useExisting: PredictionService },
    ReliabilityService,
    ReportAnswerService,
    KeptLocationService,
    TicketFactsRepository,
    TicketLocationRepository,
  ],
  exports: [LocationService, PredictionKeeper],
})
export class LocatingModule {}
