import { Module } from '@nestjs/common';
import { AsBuiltController } from './as-built.controller.js';
import { AsBuiltRepository } from './as-built.repository.js';
import { AsBuiltService } from './as-built.service.js';
import { ClientController } from './client.controller.js';
import { ClientRepository } from './client.repository.js';
import { ClientService } from './client.service.js';
import { SiteController } from './site.controller.js';
import { SiteRepository } from './site.repository.js';
import { SiteService } from './site.service.js';
import { SitesService } from './sites.service.js';
import { SurveyController } from './survey.controller.js';
import { SurveyService } from './survey.service.js';

@Module({
  controllers: [ClientController, SiteController, AsBuiltController, SurveyController],
  providers: [
    AsBuiltRepository,
    AsBuiltService,
    ClientRepository,
    ClientService,
    SiteRepository,
    SiteService,
    SitesService,
    SurveyService,
  ],
  exports: [AsBuiltService, SitesService],
})
export class SitesModule {}
