import { Controller, Get, Query, StreamableFile } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import { CurrentPrincipal } from '../people/current-principal.decorator.js';
import type { Principal } from '../people/principal.js';
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
  export(
    @CurrentPrincipal() { firmId }: Principal,
    @Query() query: AuditExportQueryDto,
  ): StreamableFile {
    return new StreamableFile(this.service.export(firmId, query), {
      type: 'text/csv; charset=utf-8',
      disposition: 'attachment; filename="audit.csv"',
    });
  }
}
