import { Module } from '@nestjs/common';
import { ChangeListenerRepository } from './change-listener.repository.js';
import { ChangeController } from './change.controller.js';
import { ChangeService } from './change.service.js';

@Module({
  controllers: [ChangeController],
  providers: [ChangeListenerRepository, ChangeService],
})
export class ChangesModule {}
