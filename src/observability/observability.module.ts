import { Module } from '@nestjs/common';
import { MetricsService } from './metrics.service.js';
import { PoolReader } from './pool-reader.js';

@Module({ providers: [MetricsService, PoolReader] })
export class ObservabilityModule {}
