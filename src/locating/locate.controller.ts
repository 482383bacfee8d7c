import { Body, Controller, Header, HttpCode, Post } from '@nestjs/common';
import { ApiBody, ApiOkResponse, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { LocateResultDto } from './locate-result.dto.js';
import { LocateRequestDto } from './locate.dto.js';
import { LocateService } from './locate.service.js';

@ApiTags('location')
@Controller('locate')
export class LocateController {
  constructor(private readonly service: LocateService) {}

  /** Works out where the fault lies from a drawing and evidence; keeps nothing. */
  @Post()
  @HttpCode(200)
  @ApiBody({ type: LocateRequestDto })
  @ApiOkResponse({ type: LocateResultDto })
  @InParts()
  @Header('content-type', 'application/json; charset=utf-8')
  @ApiProblems(422, 503)
  locate(@Body() request: unknown): Promise<string> {
    return this.service.locate(request);
  }
}
