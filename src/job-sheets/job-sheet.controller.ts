import { Controller, Get, Query, type StreamableFile } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { ApiFile, fileAnswer } from '../shared/file-answer.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { LanguageQueryDto } from '../shared/language.dto.js';
import { JobSheetDto } from './job-sheet.dto.js';
import { JobSheetService } from './job-sheet.service.js';

@ApiTags('visits')
@Controller('visits/:visitId/job-sheet')
export class JobSheetController {
  constructor(private readonly service: JobSheetService) {}

  /**
   * Says all that somebody takes along to a visit: where to go first and why, the trunk, what to try and in which order,
   * parts to carry, cautions and access, visits before.
   */
  @Get()
  @InParts()
  @ApiProblems(404, 422, 503)
  sheet(
    @IdParam('visitId') visitId: string,
    @Query() _query: LanguageQueryDto,
  ): Promise<JobSheetDto> {
    return this.service.sheet(visitId);
  }

  /** Gives it to be printed, with the trunk drawn. */
  @Get('paper')
  @InParts()
  @ApiFile('application/pdf')
  @ApiProblems(404, 422, 503)
  async paper(
    @IdParam('visitId') visitId: string,
    @Query() _query: LanguageQueryDto,
  ): Promise<StreamableFile> {
    return fileAnswer('application/pdf', await this.service.paper(visitId), 'job-sheet.pdf');
  }
}
