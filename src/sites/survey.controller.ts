import { Body, Controller, HttpCode, Param, Post } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import {
  DistanceDto,
  DistanceRequestDto,
  LoopBridgeDto,
  LoopBridgeRequestDto,
  StoredSupplyDto,
  SurveyDto,
  SurveyRequestDto,
} from './survey.dto.js';
import { SurveyService } from './survey.service.js';

/** The electrical model of a trunk, for a survey before installing, for commissioning, and for a short. Keeps nothing. */
@ApiTags('survey')
@Controller()
export class SurveyController {
  constructor(private readonly service: SurveyService) {}

  /** Reckons the voltage at every station of a trunk as drawn, and what would still work. */
  @Post('survey')
  @InParts()
  @HttpCode(200)
  @ApiOkResponse({ type: SurveyDto })
  @ApiProblems(422)
  survey(@Body() request: SurveyRequestDto): Promise<SurveyDto> {
    return this.service.survey(request);
  }

  /** The same for a trunk of the site's as-built record; what is left out is what its head-end says. */
  @Post('sites/:siteId/as-built/trunks/:trunk/survey')
  @InParts()
  @HttpCode(200)
  @ApiOkResponse({ type: SurveyDto })
  @ApiProblems(404, 422)
  surveyStored(
    @IdParam('siteId') siteId: string,
    @Param('trunk') trunk: string,
    @Body() supply: StoredSupplyDto,
  ): Promise<SurveyDto> {
    return this.service.surveyStored(siteId, trunk, supply);
  }

  /** Reckons how far along the cable two cores are shorted, from a loop resistance. */
  @Post('survey/distance-to-short')
  @InParts()
  @HttpCode(200)
  @ApiOkResponse({ type: DistanceDto })
  @ApiProblems(422)
  distanceToShort(@Body() request: DistanceRequestDto): Promise<DistanceDto> {
    return this.service.distanceToShort(request);
  }

  /** Reckons how far away a fault is from a balanced loop bridge (Murray, Varley). */
  @Post('survey/loop-bridge')
  @InParts()
  @HttpCode(200)
  @ApiOkResponse({ type: LoopBridgeDto })
  @ApiProblems(422)
  loopBridge(@Body() request: LoopBridgeRequestDto): Promise<LoopBridgeDto> {
    return this.service.loopBridge(request);
  }
}
