import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { ReadingRepository } from './reading.repository.js';
import { ReadingService } from './reading.service.js';

@Module({
  imports: [SitesModule],
  providers: [ReadingRepository, ReadingService],
  exports: [ReadingService],
})
export class ReadingsModule {}
