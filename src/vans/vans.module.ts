import { Module } from '@nestjs/common';
import { PeopleModule } from '../people/people.module.js';
import { TicketsModule } from '../tickets/tickets.module.js';
import { MendingController } from './mending.controller.js';
import { MendingService } from './mending.service.js';
import { VanController } from './van.controller.js';
import { VanRepository } from './van.repository.js';
import { VanService } from './van.service.js';

@Module({
  imports: [PeopleModule, TicketsModule],
  controllers: [MendingController, VanController],
  providers: [MendingService, VanRepository, VanService],
  exports: [VanService],
})
export class VansModule {}
