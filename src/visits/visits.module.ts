import { Module } from '@nestjs/common';
import { PeopleModule } from '../people/people.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { HistoryModule } from '../history/history.module.js';
import { LooksModule } from '../looks/looks.module.js';
import { ReportsModule } from '../reports/reports.module.js';
import { ReadingsModule } from '../readings/readings.module.js';
import { TicketsModule } from '../tickets/tickets.module.js';
import { VisitBookingService } from './visit-booking.service.js';
import { FreedVisitService } from './freed-visit.service.js';
import { VisitChecklistService } from './visit-checklist.service.js';
import { VisitChangeRepository } from './visit-change.repository.js';
import { VisitTimeRepository } from './visit-time.repository.js';
import { VisitTimeService } from './visit-time.service.js';
import { VisitMoveRepository } from './visit-move.repository.js';
import { VisitMoveService } from './visit-move.service.js';
import { VisitTicketRepository } from './visit-ticket.repository.js';
import { VisitWorkController } from './visit-work.controller.js';
import { VisitWorkService } from './visit-work.service.js';
import { VisitController } from './visit.controller.js';
import { VisitRepository } from './visit.repository.js';
import { VisitService } from './visit.service.js';

@Module({
  imports: [
    HistoryModule,
    LooksModule,
    PeopleModule,
    ReadingsModule,
    ReportsModule,
    SitesModule,
    TicketsModule,
  ],
  controllers: [VisitController, VisitWorkController],
  providers: [
    FreedVisitService,
    VisitBookingService,
    VisitChangeRepository,
    VisitChecklistService,
    VisitTimeRepository,
    VisitTimeService,
    VisitMoveRepository,
    VisitMoveService,
    VisitRepository,
    VisitService,
    VisitTicketRepository,
    VisitWorkService,
  ],
  exports: [VisitBookingService, VisitMoveService, VisitService],
})
export class VisitsModule {}
