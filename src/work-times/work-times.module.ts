import { Module } from '@nestjs/common';
import { WorkTimesController } from './work-times.controller.js';
import { WorkTimesRepository } from './work-times.repository.js';
import { WorkTimesService } from './work-times.service.js';

@Module({
  controllers: [WorkTimesController],
  providers: [WorkTimesRepository, WorkTimesService],
  exports: [WorkTimesService],
})
export class WorkTimesModule {}
