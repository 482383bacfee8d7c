import {
  Body,
  Controller,
  Get,
  Put,
  Query,
  Res,
  UnsupportedMediaTypeException,
} from '@nestjs/common';
import {
  ApiBody,
  ApiConsumes,
  ApiHeader,
  ApiOkResponse,
  ApiResponse,
  ApiTags,
  getSchemaPath,
} from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatchIfAny } from '../shared/if-match.decorator.js';
import { ProblemDto } from '../shared/problem.dto.js';
import { AsBuiltQueryDto } from '../sites/as-built.dto.js';
import { AsBuiltSheetChangeDto, PutSheetQueryDto } from './as-built-sheet.dto.js';
import { AsBuiltSheetService } from './as-built-sheet.service.js';

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

const SHEET_EXAMPLE = `trunk;node;kind;fed from;cable type;cable metres;room;block;floor;unit model;unit serial;installed on;groups;is out;lacks
A;A1;;;4 x 0.5;18;Room 1;North;0;RS-2;10441;2024-05-03;ground floor;;
A;J1;junction-box;;4 x 0.5;9,5;;North;0;;;;;;
A;A2;;J1;4 x 0.5;4;Room 2;North;0;RS-2;10442;2024-05-03;"ground floor, staff";;talkback
`;

const ERRORS_EXAMPLE = {
  type: 'urn:lastheard:problem:invalid-input',
  title: 'The input is not valid',
  status: 422,
  detail: '2 things are wrong with what was sent; nothing was saved.',
  errors: [
    {
      field: 'cable metres',
      reason: 'is a negative length',
      line: 3,
      column: 'Cable metres',
      value: '-4',
    },
    {
      field: 'fed from',
      reason: 'there is no node J9 on this trunk',
      line: 4,
      column: 'Fed from',
      value: 'J9',
    },
  ],
};

@ApiTags('as-built record')
@Controller('sites/:siteId/as-built/sheet')
export class AsBuiltSheetController {
  constructor(private readonly service: AsBuiltSheetService) {}

  /**
   * Replaces the record's nodes by those of a sheet, or tells everything that is wrong with it.
   *
   * A workbook (.xlsx), or a text separated by commas, semicolons or tabs, in UTF-8; columns in any order. Needed are
   * trunk and node. What a sheet has no column for stays as it is, and so do the head-end and the trunks' names and
   * ports; `fed from` left blank is the row before on the same trunk, `head-end` is the head-end. Titles above the header and
   * totals are left out, a blank trunk, block or floor is the one above (`-`: none), a row that says "fed from A4" alone
   * begins a branch, a blank length becomes a typical one. `notes` tell what was not taken as it stands.
   */
  @Put()
  @ApiHeader({
    name: 'If-Match',
    required: false,
    description: 'The ETag of the version that is changed; needed unless it is only checked.',
    example: '"3"',
  })
  @ApiConsumes('text/csv', XLSX)
  @ApiBody({ schema: { type: 'string', example: SHEET_EXAMPLE } })
  @ApiProblems(404, 412, 428, 429)
  @ApiResponse({
    status: 422,
    description:
      'The sheet is not valid; `errors` names the line, column, value and reason of each.',
    content: {
      'application/problem+json': {
        schema: { $ref: getSchemaPath(ProblemDto) },
        example: ERRORS_EXAMPLE,
      },
    },
  })
  put(
    @IdParam('siteId') siteId: string,
    @Query() query: PutSheetQueryDto,
    @IfMatchIfAny() version: number | undefined,
    @Body() body: unknown,
  ): Promise<AsBuiltSheetChangeDto> {
    if (!Buffer.isBuffer(body)) {
      throw new UnsupportedMediaTypeException(`Send the sheet as text/csv or ${XLSX}.`);
    }
    return this.service.put(siteId, body, version, query);
  }

  /** Gives the record's nodes as a sheet that reads back as the same record. */
  @Get()
  @ApiOkResponse({
    description: 'The sheet.',
    content: { 'text/csv': { schema: { type: 'string', example: SHEET_EXAMPLE } } },
  })
  @ApiProblems(404, 422)
  async read(
    @IdParam('siteId') siteId: string,
    @Query() { version }: AsBuiltQueryDto,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    const sheet = await this.service.read(siteId, version);
    void reply
      .type('text/csv; charset=utf-8')
      .header('content-disposition', `attachment; filename="${sheet.name}"`)
      .header('etag', `"${sheet.version}"`);
    return sheet.text;
  }
}
