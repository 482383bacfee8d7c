import { type DynamicModule, Module } from '@nestjs/common';
import { APP_FILTER } from '@nestjs/core';
import { AccessModule, AccessSettingsModule } from './access/access.module.js';
import { AccessSettings, DEFAULT_LIMITS, type RequestLimits } from './access/access-settings.js';
import { AuditModule } from './audit/audit.module.js';
import { MailModule } from './mail/mail.module.js';
import { type MailServer, MailSettings } from './mail/mail.service.js';
import { PassModule } from './passes/pass.module.js';
import { PeopleModule } from './people/people.module.js';
import { ComputeModule } from './compute/compute.module.js';
import { ComputeSettings } from './compute/compute.service.js';
import { DatabaseModule } from './database/database.module.js';
import { ChangesModule } from './changes/changes.module.js';
import { DeskModule } from './desk/desk.module.js';
import { HealthModule } from './health/health.module.js';
import { JobsModule } from './jobs/jobs.module.js';
import { ObservabilityModule } from './observability/observability.module.js';
import { LocatingModule } from './locating/locating.module.js';
import type { Clock } from './shared/clock.js';
import { ProblemFilter } from './shared/problem.filter.js';
import { SharedModule } from './shared/shared.module.js';
import { NoticesModule } from './notices/notices.module.js';
import { PhotosModule } from './photos/photos.module.js';
import { PromisesModule } from './promises/promises.module.js';
import { SheetsModule } from './sheets/sheets.module.js';
import { SitesModule } from './sites/sites.module.js';
import { TicketsModule } from './tickets/tickets.module.js';
import { CalendarFeedsModule } from './calendar-feeds/calendar-feeds.module.js';
import { DispatchModule } from './dispatch/dispatch.module.js';
import { JobSheetsModule } from './job-sheets/job-sheets.module.js';
import { ContractsModule } from './contracts/contracts.module.js';
import { ReviewModule } from './review/review.module.js';
import { VansModule } from './vans/vans.module.js';
import { WorkTimesModule } from './work-times/work-times.module.js';
import { WalksModule } from './walks/walks.module.js';
import { VisitsModule } from './visits/visits.module.js';

export interface AppSettings {
  /** URL of the database, as the app's own role. */
  appUrl: string;
  /** Where people reach the service, such as https://lastheard.example; or what knows it once it listens. */
  publicUrl: string | (() => string);
  /** What is wrong with links that begin with it; left out: nothing. */
  linkWarning?: string | null;
  /** Whether webhooks may go to the machine’s own network; left out: they may not. */
  reachesPrivate?: boolean;
  /** Seals what the database must not show: 32 bytes, the same for every process. */
  sealKey: Buffer;
  /** Left out: the usual ones. */
  limits?: Partial<RequestLimits>;
  /** Left out: mails stay in the outbox. */
  mail?: MailServer;
  /** Whether arithmetic waits for all else on the machine; left out: it does. */
  arithmeticGivesWay?: boolean;
  clock: Clock;
}

@Module({})
export class AppModule {
  static with(settings: AppSettings): DynamicModule {
    const { appUrl, publicUrl, linkWarning, reachesPrivate, sealKey, limits, mail, clock } =
      settings;
    return {
      module: AppModule,
      imports: [
        SharedModule.with(clock),
        DatabaseModule.connect(appUrl),
        AccessSettingsModule.with(
          new AccessSettings(
            publicUrl,
            { ...DEFAULT_LIMITS, ...limits },
            sealKey,
            linkWarning,
            reachesPrivate,
          ),
        ),
        PeopleModule,
        AuditModule,
        MailModule.with(new MailSettings(mail)),
        AccessModule,
        PassModule,
        ChangesModule,
        DeskModule,
        CalendarFeedsModule,
        HealthModule,
        ComputeModule.with(new ComputeSettings(settings.arithmeticGivesWay)),
        ContractsModule,
        VansModule,
        WorkTimesModule,
        DispatchModule,
        JobSheetsModule,
        JobsModule,
        ObservabilityModule,
        ReviewModule,
        LocatingModule,
        NoticesModule,
        PhotosModule,
        PromisesModule,
        SheetsModule,
        SitesModule,
        TicketsModule,
        VisitsModule,
        WalksModule,
      ],
      providers: [{ provide: APP_FILTER, useClass: ProblemFilter }],
    };
  }
}
