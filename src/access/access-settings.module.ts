import { type DynamicModule, Global, Module } from '@nestjs/common';
import { AccessSettings, type Limits } from './access-settings.js';

@Global()
@Module({})
export class AccessSettingsModule {
  static with(publicUrl: string, limits: Limits): DynamicModule {
    return {
      module: AccessSettingsModule,
      providers: [{ provide: AccessSettings, useValue: new AccessSettings(publicUrl, limits) }],
      exports: [AccessSettings],
    };
  }
}
