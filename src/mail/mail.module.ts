import { type DynamicModule, Global, Module } from '@nestjs/common';
import { MailController } from './mail.controller.js';
import { MailRepository } from './mail.repository.js';
import { MailService, MailSettings } from './mail.service.js';

@Global()
@Module({})
export class MailModule {
  static with(settings: MailSettings): DynamicModule {
    return {
      module: MailModule,
      controllers: [MailController],
      providers: [MailRepository, MailService, { provide: MailSettings, useValue: settings }],
      exports: [MailService],
    };
  }
}
