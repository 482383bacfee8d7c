import { Module } from '@nestjs/common';
import { HistoryModule } from '../history/history.module.js';
import { SitesModule } from '../sites/sites.module.js';
import { LocatingModule } from '../locating/locating.module.js';
import { TicketsModule } from '../tickets/tickets.module.js';
import { VisitsModule } from '../visits/visits.module.js';
import { AccessModule } from '../access/access.module.js';
import { PassController } from './pass.controller.js';
import { PassService } from './pass.service.js';
import { PassSessionService } from './pass-session.service.js';
import { SignatureController } from './signature.controller.js';
import { SignatureRepository } from './signature.repository.js';
import { SignatureService } from './signature.service.js';
import { SitePassController } from './site-pass.controller.js';
import { SitePassRepository } from './site-pass.repository.js';
import { SitePassService } from './site-pass.service.js';
import { PeopleModule } from '../people/people.module.js';

/** Apart from the access module, which visits stand on. */
@Module({
  imports: [
    PeopleModule,
    AccessModule,
    HistoryModule,
    LocatingModule,
    SitesModule,
    TicketsModule,
    VisitsModule,
  ],
  controllers: [PassController, SignatureController, SitePassController],
  providers: [
    PassService,
    PassSessionService,
    SignatureRepository,
    SignatureService,
    SitePassRepository,
    SitePassService,
  ],
})
export class PassModule {}
