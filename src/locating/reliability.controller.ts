import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { ReliabilityDto, ReliabilityQueryDto } from './reliability.dto.js';
import { ReliabilityService } from './reliability.service.js';

@ApiTags('reports')
@Controller('reports')
export class ReliabilityController {
  constructor(private readonly service: ReliabilityService) {}

  /** Holds what was predicted when somebody was sent against what was found, for tickets closed in a period. */
  @Get('reliability')
  @ApiProblems(404, 422)
  reliability(@Query() query: ReliabilityQueryDto): Promise<ReliabilityDto> {
    return this.service.reliability(query);
  }
}
