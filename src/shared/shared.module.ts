import { type DynamicModule, Global, Module } from '@nestjs/common';
import { BackgroundService } from './background.service.js';
import { Clock } from './clock.js';

@Global()
@Module({})
export class SharedModule {
  static with(clock: Clock): DynamicModule {
    return {
      module: SharedModule,
      providers: [BackgroundService, { provide: Clock, useValue: clock }],
      exports: [BackgroundService, Clock],
    };
  }
}
