import { Module } from '@nestjs/common';
import { PeopleModule } from '../people/people.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { TicketsModule } from '../tickets/tickets.module.js';
import { VisitMoveRepository } from './visit-move.repository.js';
import { VisitMoveService } from './visit-move.service.js';
import { VisitReadingRepository } from '../readings/visit-reading.repository.js';
import { VisitReadingService } from '../readings/visit-reading.service.js';
import { VisitTicketRepository } from './visit-ticket.repository.js';
import { VisitWalkTestService } from './visit-walk-test.service.js';
import { VisitWorkController } from './visit-work.controller.js';
import { VisitController } from './visit.controller.js';
import { VisitRepository } from './visit.repository.js';
import { VisitService } from './visit.service.js';

@Module({
  imports: [PeopleModule, SitesModule, TicketsModule],
  controllers: [VisitController, VisitWorkController],
  providers: [
    VisitMoveRepository,
    VisitMoveService,
    VisitReadingRepository,
    VisitReadingService,
    VisitRepository,
    VisitService,
    VisitTicketRepository,
    VisitWalkTestService,
  ],
  exports: [VisitMoveService, VisitReadingService, VisitService],
})
export class VisitsModule {}
