import { Controller, Get, Patch } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import { FirmDto, PatchFirmDto } from './firm.dto.js';
import { FirmService } from './firm.service.js';

@ApiTags('people')
@Controller('firm')
export class FirmController {
  constructor(private readonly service: FirmService) {}

  /** Reads how the firm is known to its clients. */
  @Get()
  get(): Promise<FirmDto> {
    return this.service.get();
  }

  /** Changes its name and telephone by a merge patch. */
  @Patch()
  @ApiBody({ type: PatchFirmDto })
  @ApiProblems(412, 422, 428)
  change(
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<FirmDto> {
    return this.service.change(version, patch);
  }
}
