import { Body, Controller, HttpCode, Post } from '@nestjs/common';
import { ApiBody, ApiOkResponse, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
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
  @ApiProblems(422)
  locate(@Body() request: unknown): LocateResultDto {
    return this.service.locate(request);
  }
}
