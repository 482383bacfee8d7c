import { Module } from '@nestjs/common';
import { LocatingModule } from '../locating/locating.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { TicketsModule } from '../tickets/tickets.module.js';
import { WorkTimesModule } from '../work-times/work-times.module.js';
import { KitInWordsService } from './kit-in-words.service.js';
import { KitService } from './kit.service.js';
import { WalkController } from './walk.controller.js';
import { WalkService } from './walk.service.js';

@Module({
  imports: [LocatingModule, SitesModule, TicketsModule, WorkTimesModule],
  controllers: [WalkController],
  providers: [KitInWordsService, KitService, WalkService],
  exports: [WalkService],
})
export class WalksModule {}
