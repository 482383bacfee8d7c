import { Module } from '@nestjs/common';
import { SitesModule } from '../sites/sites.module.js';
import { LookRepository } from './look.repository.js';
import { LookService } from './look.service.js';

@Module({
  imports: [SitesModule],
  providers: [LookRepository, LookService],
  exports: [LookService],
})
export class LooksModule {}
