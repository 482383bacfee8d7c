import { type DynamicModule, Module } from '@nestjs/common';
import { APP_FILTER, APP_INTERCEPTOR } from '@nestjs/core';
import { AccessModule } from './access/access.module.js';
import { DatabaseModule } from './database/database.module.js';
import { FirmTransactionInterceptor } from './database/firm-transaction.interceptor.js';
import { SafeRepeatInterceptor } from './database/safe-repeat.interceptor.js';
import { SafeRepeatRepository } from './database/safe-repeat.repository.js';
import { HealthModule } from './health/health.module.js';
import type { Clock } from './shared/clock.js';
import { EtagInterceptor } from './shared/etag.interceptor.js';
import { ProblemFilter } from './shared/problem.filter.js';
import { SharedModule } from './shared/shared.module.js';
import { SitesModule } from './sites/sites.module.js';
import { TicketsModule } from './tickets/tickets.module.js';
import { VisitsModule } from './visits/visits.module.js';

export interface AppSettings {
  /** URL of the database, as the app's own role. */
  appUrl: string;
  firmId: string;
  clock: Clock;
}

@Module({})
export class AppModule {
  static with({ appUrl, firmId, clock }: AppSettings): DynamicModule {
    return {
      module: AppModule,
      imports: [
        SharedModule.with(clock),
        DatabaseModule.connect(appUrl, firmId),
        AccessModule,
        HealthModule,
        SitesModule,
        TicketsModule,
        VisitsModule,
      ],
      providers: [
        { provide: APP_FILTER, useClass: ProblemFilter },
        // Outermost first: the ETag of the answer, the transaction, the repeat inside of it.
        { provide: APP_INTERCEPTOR, useClass: EtagInterceptor },
        { provide: APP_INTERCEPTOR, useClass: FirmTransactionInterceptor },
        { provide: APP_INTERCEPTOR, useClass: SafeRepeatInterceptor },
        SafeRepeatRepository,
      ],
    };
  }
}
