import { Module } from '@nestjs/common';
import { ObservationRepository } from './observation.repository.js';
import { ObservationService } from './observation.service.js';
import { VisitWithdrawalRepository } from './visit-withdrawal.repository.js';
import { VisitWithdrawalService } from './visit-withdrawal.service.js';

@Module({
  providers: [
    ObservationRepository,
    ObservationService,
    VisitWithdrawalRepository,
    VisitWithdrawalService,
  ],
  exports: [ObservationService, VisitWithdrawalService],
})
export class ReportsModule {}
