import { Module } from '@nestjs/common';
import { AccessModule } from '../access/access.module.js';
import { PeopleModule } from '../people/people.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { CalendarFeedController } from './calendar-feed.controller.js';
import { CalendarFeedRepository } from './calendar-feed.repository.js';
import { CalendarFeedService } from './calendar-feed.service.js';

@Module({
  imports: [AccessModule, PeopleModule, SitesModule],
  controllers: [CalendarFeedController],
  providers: [CalendarFeedRepository, CalendarFeedService],
})
export class CalendarFeedsModule {}
