import { Controller, Get, Patch } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import { PatchWorkTimesDto, WorkTimesDto } from './work-times.dto.js';
import { WorkTimesService } from './work-times.service.js';

/** How long work on site takes. */
@ApiTags('work-times')
@Controller('work-times')
export class WorkTimesController {
  constructor(private readonly service: WorkTimesService) {}

  /** Reads how long work takes: as the firm says, as its visits have shown, or as is usual. */
  @Get()
  read(): Promise<WorkTimesDto> {
    return this.service.read();
  }

  /** Changes how long work takes, by a merge patch. */
  @Patch()
  @ApiBody({ type: PatchWorkTimesDto })
  @ApiProblems(412, 422, 428)
  change(
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<WorkTimesDto> {
    return this.service.change(version, patch);
  }
}
