import { Module } from '@nestjs/common';
import { DeskController } from './desk.controller.js';
import { DeskRepository } from './desk.repository.js';
import { DeskService } from './desk.service.js';

@Module({
  controllers: [DeskController],
  providers: [DeskRepository, DeskService],
})
export class DeskModule {}
