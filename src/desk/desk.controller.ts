import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { DeskDto, DeskQueryDto } from './desk.dto.js';
import { DeskService } from './desk.service.js';

@ApiTags('tickets')
@Controller('desk')
export class DeskController {
  constructor(private readonly service: DeskService) {}

  /** Reads what is silent now: every open ticket with its place, its trunk in one line, and who goes. */
  @Get()
  @ApiProblems(422)
  now(@Query() { after }: DeskQueryDto): Promise<DeskDto> {
    return this.service.now(after);
  }
}
