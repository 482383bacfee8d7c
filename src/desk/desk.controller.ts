import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { DeskDto } from './desk.dto.js';
import { DeskService } from './desk.service.js';

@ApiTags('tickets')
@Controller('desk')
export class DeskController {
  constructor(private readonly service: DeskService) {}

  /** Reads what is silent now: every open ticket with its place, its trunk in one line, and who goes. */
  @Get()
  now(): Promise<DeskDto> {
    return this.service.now();
  }
}
