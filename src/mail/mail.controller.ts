import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { MailPageDto } from './mail.dto.js';
import { MailService } from './mail.service.js';

@ApiTags('signing in')
@Controller('outbox')
export class MailController {
  constructor(private readonly service: MailService) {}

  /** Lists mails: without a mail server they wait here for the owner to pass them on. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: PageQueryDto): Promise<MailPageDto> {
    return this.service.list(query);
  }
}
