import { Controller, Get, Query, type StreamableFile } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { ApiFile, fileAnswer } from '../shared/file-answer.js';
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
  @ApiFile('text/csv')
  @ApiProblems(422)
  export(
    @CurrentPrincipal() { firmId }: Principal,
    @Query() query: AuditExportQueryDto,
  ): StreamableFile {
    return fileAnswer('text/csv', this.service.export(firmId, query), 'audit.csv');
  }
}
