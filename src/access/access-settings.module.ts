import { type DynamicModule, Global, Module } from '@nestjs/common';
import { AccessSettings } from './access-settings.js';

@Global()
@Module({})
export class AccessSettingsModule {
  static with(settings: AccessSettings): DynamicModule {
    return {
      module: AccessSettingsModule,
      providers: [{ provide: AccessSettings, useValue: settings }],
      exports: [AccessSettings],
    };
  }
}
