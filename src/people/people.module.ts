import { Module } from '@nestjs/common';
import { AccountController } from './account.controller.js';
import { AccountRepository } from './account.repository.js';
import { AccountService } from './account.service.js';
import { AnonymiseRepository } from './anonymise.repository.js';
import { AnonymiseService } from './anonymise.service.js';
import { FirmController } from './firm.controller.js';
import { FirmService } from './firm.service.js';
import { PersonController } from './person.controller.js';
import { PersonRepository } from './person.repository.js';
import { PersonService } from './person.service.js';

@Module({
  controllers: [AccountController, FirmController, PersonController],
  providers: [
    AccountRepository,
    AccountService,
    AnonymiseRepository,
    AnonymiseService,
    FirmService,
    PersonRepository,
    PersonService,
  ],
  exports: [AccountService, FirmService, PersonService],
})
export class PeopleModule {}
