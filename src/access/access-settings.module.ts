import { type DynamicModule, Global, Module } from '@nestjs/common';
import { AccessSettings } from './access-settings.js';

@Global()
@Module({})
export class AccessSettingsModule {
  static with(publicUrl: string): DynamicModule {
    return {
      module: AccessSettingsModule,
      providers: [{ provide: AccessSettings, useValue: new AccessSettings(publicUrl) }],
      exports: [AccessSettings],
    };
  }
}
