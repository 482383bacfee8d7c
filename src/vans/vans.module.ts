import { Module } from '@nestjs/common';
import { PeopleModule } from '../people/people.module.js';
import { VanController } from './van.controller.js';
import { VanRepository } from './van.repository.js';
import { VanService } from './van.service.js';

@Module({
  imports: [PeopleModule],
  controllers: [VanController],
  providers: [VanRepository, VanService],
  exports: [VanService],
})
export class VansModule {}
