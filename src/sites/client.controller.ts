import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import { ClientDto, ClientPageDto, CreateClientDto, PatchClientDto } from './client.dto.js';
import { ClientService } from './client.service.js';

@ApiTags('clients')
@Controller('clients')
export class ClientController {
  constructor(private readonly service: ClientService) {}

  /** Adds a client of the firm. */
  @Post()
  @ApiProblems(409, 422)
  create(@Body() body: CreateClientDto): Promise<ClientDto> {
    return this.service.create(body);
  }

  /** Lists the firm's clients by name. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: PageQueryDto): Promise<ClientPageDto> {
    return this.service.list(query);
  }

  /** Reads one client. */
  @Get(':id')
  @ApiProblems(404, 422)
  get(@IdParam('id') id: string): Promise<ClientDto> {
    return this.service.get(id);
  }

  /** Changes a client by a merge patch. */
  @Patch(':id')
  @ApiBody({ type: PatchClientDto })
  @ApiProblems(404, 412, 422, 428)
  change(
    @IdParam('id') id: string,
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<ClientDto> {
    return this.service.change(id, version, patch);
  }
}
