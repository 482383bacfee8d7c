import { Body, Controller, Get, Param, Patch, Put, Query } from '@nestjs/common';
import { ApiBody, ApiHeader, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { asJsonObject } from '../shared/json-object.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { AsBuiltChangeDto, AsBuiltComparisonDto } from './as-built-comparison.dto.js';
import {
  AsBuiltDto,
  AsBuiltQueryDto,
  AsBuiltVersionPageDto,
  CompareQueryDto,
  PatchNodeDto,
  PutAsBuiltDto,
} from './as-built.dto.js';
import { AsBuiltService } from './as-built.service.js';

const IF_MATCH = {
  name: 'If-Match',
  required: true,
  description: 'The ETag of the version that is changed.',
  example: '"3"',
};

@ApiTags('as-built record')
@Controller('sites/:siteId/as-built')
export class AsBuiltController {
  constructor(private readonly service: AsBuiltService) {}

  /** Reads what is installed at a site, in any version of its record. */
  @Get()
  @ApiProblems(404, 422)
  read(
    @IdParam('siteId') siteId: string,
    @Query() { version }: AsBuiltQueryDto,
  ): Promise<AsBuiltDto> {
    return this.service.read(siteId, version);
  }

  /** Replaces the whole record: a new version, unless nothing differs. */
  @Put()
  @ApiHeader(IF_MATCH)
  @ApiBody({ type: PutAsBuiltDto })
  @ApiProblems(404, 412, 422, 428)
  replace(
    @IdParam('siteId') siteId: string,
    @IfMatch() version: number,
    // As it came: the drawing's own rules check it, with all that is wrong told at once.
    @Body() body: unknown,
  ): Promise<AsBuiltChangeDto> {
    return this.service.replace(siteId, version, asJsonObject(body));
  }

  /** Changes one node, such as a unit that was replaced: a new version, unless nothing differs. */
  @Patch('trunks/:trunk/nodes/:node')
  @ApiHeader(IF_MATCH)
  @ApiBody({ type: PatchNodeDto })
  @ApiProblems(404, 412, 422, 428)
  patchNode(
    @IdParam('siteId') siteId: string,
    @Param('trunk') trunk: string,
    @Param('node') node: string,
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<AsBuiltChangeDto> {
    return this.service.patchNode(siteId, { trunk, node }, version, patch);
  }

  /** Lists the record's versions, newest first: who changed it, when and why. */
  @Get('versions')
  @ApiProblems(404, 422)
  versions(
    @IdParam('siteId') siteId: string,
    @Query() query: PageQueryDto,
  ): Promise<AsBuiltVersionPageDto> {
    return this.service.versions(siteId, query);
  }

  /** Says what differs from one version to another. */
  @Get('compare')
  @ApiProblems(404, 422)
  compare(
    @IdParam('siteId') siteId: string,
    @Query() query: CompareQueryDto,
  ): Promise<AsBuiltComparisonDto> {
    return this.service.compare(siteId, query);
  }
}
