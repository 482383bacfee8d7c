import { Module } from '@nestjs/common';
import { TicketsModule } from '../tickets/tickets.module.js';
import { VisitsModule } from '../visits/visits.module.js';
import { PhotoController } from './photo.controller.js';
import { PhotoRepository } from './photo.repository.js';
import { PhotoService } from './photo.service.js';

@Module({
  imports: [TicketsModule, VisitsModule],
  controllers: [PhotoController],
  providers: [PhotoRepository, PhotoService],
})
export class PhotosModule {}
