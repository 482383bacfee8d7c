import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { TicketsModule } from '../tickets/tickets.module.js';
import { ReliabilityController } from './reliability.controller.js';
import { ReliabilityService } from './reliability.service.js';

@Module({
  imports: [SitesModule, TicketsModule],
  controllers: [ReliabilityController],
  providers: [ReliabilityService],
})
export class LocatingModule {}
