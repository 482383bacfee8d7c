import { type DynamicModule, Global, Module } from '@nestjs/common';
import { Clock } from './clock.js';

@Global()
@Module({})
export class SharedModule {
  static with(clock: Clock): DynamicModule {
    return {
      module: SharedModule,
      providers: [{ provide: Clock, useValue: clock }],
      exports: [Clock],
    };
  }
}
