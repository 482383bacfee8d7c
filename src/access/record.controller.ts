import { Controller, Get, Query, Res } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { RecordExportQueryDto, RecordPageDto, RecordQueryDto } from './record.dto.js';
import { RecordService } from './record.service.js';

@ApiTags('record')
@Controller('record')
export class RecordController {
  constructor(private readonly service: RecordService) {}

  /** Reads who did what, newest first. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: RecordQueryDto): Promise<RecordPageDto> {
    return this.service.list(query);
  }

  /** Gives the record as a sheet. */
  @Get('sheet')
  @ApiOkResponse({
    description: 'The sheet.',
    content: { 'text/csv': { schema: { type: 'string' } } },
  })
  @ApiProblems(422)
  async export(
    @Query() query: RecordExportQueryDto,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    void reply
      .type('text/csv; charset=utf-8')
      .header('content-disposition', 'attachment; filename="record.csv"');
    return this.service.export(query);
  }
}
