import { Module } from '@nestjs/common';
import { AccountController } from './account.controller.js';
import { AccountRepository } from './account.repository.js';
import { AccountService } from './account.service.js';
import { AnonymiseRepository } from './anonymise.repository.js';
import { AnonymiseService } from './anonymise.service.js';
import { PersonController } from './person.controller.js';
import { PersonRepository } from './person.repository.js';
import { PersonService } from './person.service.js';

@Module({
  controllers: [AccountController, PersonController],
  providers: [
    AccountRepository,
    AccountService,
    AnonymiseRepository,
    AnonymiseService,
    PersonRepository,
    PersonService,
  ],
  exports: [AccountService, PersonService],
})
export class PeopleModule {}
