import { type DynamicModule, Global, Module } from '@nestjs/common';
import { ComputeService, ComputeSettings } from './compute.service.js';

@Global()
@Module({})
export class ComputeModule {
  static with(settings: ComputeSettings): DynamicModule {
    return {
      module: ComputeModule,
      providers: [ComputeService, { provide: ComputeSettings, useValue: settings }],
      exports: [ComputeService],
    };
  }
}
