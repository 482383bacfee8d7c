import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { TicketReadingRepository } from './ticket-reading.repository.js';
import { TicketReadingService } from './ticket-reading.service.js';
import { VisitReadingRepository } from './visit-reading.repository.js';
import { VisitReadingService } from './visit-reading.service.js';

@Module({
  imports: [SitesModule],
  providers: [
    TicketReadingRepository,
    TicketReadingService,
    VisitReadingRepository,
    VisitReadingService,
  ],
  exports: [TicketReadingService, VisitReadingService],
})
export class ReadingsModule {}
