import { type DynamicModule, Global, Module } from '@nestjs/common';
import { AuditModule } from '../audit/audit.module.js';
import { PeopleModule } from '../people/people.module.js';
import { RateLimitsModule } from '../rate-limits/rate-limits.module.js';
import { AccessSettings } from './access-settings.js';
import { AccessGuard } from './access.guard.js';
import { ApiTokenController } from './api-token.controller.js';
import { ApiTokenRepository } from './api-token.repository.js';
import { ApiTokenService } from './api-token.service.js';
import { AuthenticationRepository } from './authentication.repository.js';
import { CredentialService } from './credential.service.js';
import { DeviceService } from './device.service.js';
import { FirstStartController } from './first-start.controller.js';
import { PublicAddressController } from './public-address.controller.js';
import { FirstStartService } from './first-start.service.js';
import { MailedLinkController } from './mailed-link.controller.js';
import { MailedLinkRepository } from './mailed-link.repository.js';
import { MailedLinkService } from './mailed-link.service.js';
import { PasswordController } from './password.controller.js';
import { PasswordService } from './password.service.js';
import { PasswordChangeService } from './password-change.service.js';
import { RequestInterceptor } from './request.interceptor.js';
import { SealService } from './seal.service.js';
import { SecondStepController } from './second-step.controller.js';
import { SecondStepRepository } from './second-step.repository.js';
import { SecondStepService } from './second-step.service.js';
import { SecretService } from './secret.service.js';
import { SessionController } from './session.controller.js';
import { SessionRepository } from './session.repository.js';
import { SessionService } from './session.service.js';
import { SetUpService } from './set-up.service.js';
import { SignInService } from './sign-in.service.js';
import { SignInTryService } from './sign-in-try.service.js';

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

@Module({
  imports: [AuditModule, PeopleModule, RateLimitsModule],
  controllers: [
    ApiTokenController,
    FirstStartController,
    PublicAddressController,
    MailedLinkController,
    PasswordController,
    SecondStepController,
    SessionController,
  ],
  providers: [
    AccessGuard,
    ApiTokenRepository,
    ApiTokenService,
    AuthenticationRepository,
    CredentialService,
    DeviceService,
    FirstStartService,
    MailedLinkRepository,
    MailedLinkService,
    PasswordService,
    PasswordChangeService,
    RequestInterceptor,
    SealService,
    SecondStepRepository,
    SecondStepService,
    SecretService,
    SessionRepository,
    SessionService,
    SetUpService,
    SignInService,
    SignInTryService,
  ],
  exports: [
    AccessGuard,
    RequestInterceptor,
    CredentialService,
    SealService,
    SecretService,
    SetUpService,
  ],
})
export class AccessModule {}
