import { Module } from '@nestjs/common';
import { FirmRepository } from './firm.repository.js';
import { FirmService } from './firm.service.js';
import { PersonController } from './person.controller.js';
import { PersonRepository } from './person.repository.js';
import { PersonService } from './person.service.js';

@Module({
  controllers: [PersonController],
  providers: [FirmRepository, FirmService, PersonRepository, PersonService],
  exports: [FirmService, PersonService],
})
export class AccessModule {}
