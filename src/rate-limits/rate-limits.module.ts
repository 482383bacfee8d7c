import { Module } from '@nestjs/common';
import { RateLimitRepository } from './rate-limit.repository.js';
import { RateLimitService } from './rate-limit.service.js';
import { TryService } from './try.service.js';

@Module({
  providers: [RateLimitRepository, RateLimitService, TryService],
  exports: [RateLimitService, TryService],
})
export class RateLimitsModule {}
