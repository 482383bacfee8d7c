import { Controller, Get, Query, Res } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { AuditExportQueryDto, AuditPageDto, AuditQueryDto } from './audit.dto.js';
import { AuditService } from './audit.service.js';

@ApiTags('audit')
@Controller('audit')
export class AuditController {
  constructor(private readonly service: AuditService) {}

  /** Reads who did what, newest first. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: AuditQueryDto): Promise<AuditPageDto> {
    return this.service.list(query);
  }

  /** Gives the same as a sheet. */
  @Get('sheet')
  @ApiOkResponse({
    description: 'The sheet.',
    content: { 'text/csv': { schema: { type: 'string' } } },
  })
  @ApiProblems(422)
  async export(
    @Query() query: AuditExportQueryDto,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    void reply
      .type('text/csv; charset=utf-8')
      .header('content-disposition', 'attachment; filename="audit.csv"');
    return this.service.export(query);
  }
}
