import { Module } from '@nestjs/common';
import { AccessGuard } from './access.guard.js';
import { AccountController } from './account.controller.js';
import { AccountRepository } from './account.repository.js';
import { AccountService } from './account.service.js';
import { ApiTokenController } from './api-token.controller.js';
import { ApiTokenRepository } from './api-token.repository.js';
import { ApiTokenService } from './api-token.service.js';
import { AuthenticationRepository } from './authentication.repository.js';
import { BackgroundService } from './background.service.js';
import { CredentialService } from './credential.service.js';
import { FirmRepository } from './firm.repository.js';
import { FirmService } from './firm.service.js';
import { MailRepository } from './mail.repository.js';
import { MailService } from './mail.service.js';
import { MailedLinkController } from './mailed-link.controller.js';
import { MailedLinkRepository } from './mailed-link.repository.js';
import { MailedLinkService } from './mailed-link.service.js';
import { SecondStepController } from './second-step.controller.js';
import { SecondStepRepository } from './second-step.repository.js';
import { SecondStepService } from './second-step.service.js';
import { AnonymiseRepository } from './anonymise.repository.js';
import { AnonymiseService } from './anonymise.service.js';
import { RecordController } from './record.controller.js';
import { RequestInterceptor } from './request.interceptor.js';
import { RecordRepository } from './record.repository.js';
import { RecordService } from './record.service.js';
import { PasswordService } from './password.service.js';
import { PersonController } from './person.controller.js';
import { PersonRepository } from './person.repository.js';
import { PersonService } from './person.service.js';
import { RateLimitRepository } from './rate-limit.repository.js';
import { RateLimitService } from './rate-limit.service.js';
import { SealService } from './seal.service.js';
import { SecretService } from './secret.service.js';
import { SessionController } from './session.controller.js';
import { SessionRepository } from './session.repository.js';
import { SessionService } from './session.service.js';
import { SetUpService } from './set-up.service.js';
import { SignInService } from './sign-in.service.js';

@Module({
  controllers: [
    AccountController,
    ApiTokenController,
    MailedLinkController,
    SecondStepController,
    PersonController,
    RecordController,
    SessionController,
  ],
  providers: [
    AccessGuard,
    AccountRepository,
    AccountService,
    ApiTokenRepository,
    ApiTokenService,
    AuthenticationRepository,
    BackgroundService,
    CredentialService,
    FirmRepository,
    FirmService,
    MailRepository,
    MailService,
    MailedLinkRepository,
    MailedLinkService,
    SecondStepRepository,
    SecondStepService,
    AnonymiseRepository,
    AnonymiseService,
    PasswordService,
    RequestInterceptor,
    RecordRepository,
    RecordService,
    PersonRepository,
    PersonService,
    RateLimitRepository,
    RateLimitService,
    SealService,
    SecretService,
    SessionRepository,
    SessionService,
    SetUpService,
    SignInService,
  ],
  exports: [
    AccessGuard,
    RequestInterceptor,
    CredentialService,
    PersonService,
    SecretService,
    SetUpService,
  ],
})
export class AccessModule {}
