import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { IfMatch } from '../shared/if-match.decorator.js';
import { MergePatchBody } from '../shared/merge-patch-body.decorator.js';
import {
  CreatePersonDto,
  PatchPersonDto,
  PersonDto,
  PersonPageDto,
  PersonQueryDto,
} from './person.dto.js';
import { CurrentPrincipal } from './current-principal.decorator.js';
import { PersonService } from './person.service.js';
import type { Principal } from './principal.js';

@ApiTags('people')
@Controller('people')
export class PersonController {
  constructor(private readonly service: PersonService) {}

  /** Adds a person of the firm. */
  @Post()
  @ApiProblems(409, 422)
  create(@Body() body: CreatePersonDto): Promise<PersonDto> {
    return this.service.create(body);
  }

  /** Lists the firm's people by name. */
  @Get()
  @ApiProblems(422)
  list(@Query() query: PersonQueryDto): Promise<PersonPageDto> {
    return this.service.list(query);
  }

  /** Reads one person. */
  @Get(':id')
  @ApiProblems(404, 422)
  get(@IdParam('id') id: string): Promise<PersonDto> {
    return this.service.get(id);
  }

  /** Changes a person by a merge patch. */
  @Patch(':id')
  @ApiBody({ type: PatchPersonDto })
  @ApiProblems(404, 409, 412, 422, 428)
  change(
    @CurrentPrincipal() principal: Principal,
    @IdParam('id') id: string,
    @IfMatch() version: number,
    @MergePatchBody() patch: Record<string, unknown>,
  ): Promise<PersonDto> {
    return this.service.change(principal, { id, version }, patch);
  }
}
