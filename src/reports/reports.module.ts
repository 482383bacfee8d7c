import { Module } from '@nestjs/common';
import { ObservationRepository } from './observation.repository.js';
import { ObservationService } from './observation.service.js';

@Module({
  providers: [ObservationRepository, ObservationService],
  exports: [ObservationService],
})
export class ReportsModule {}
