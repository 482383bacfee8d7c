import { Body, Controller, Get, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { PageQueryDto } from '../shared/page.dto.js';
import {
  KeptWalkTestDto,
  KeptWalkTestPageDto,
  VisitWalkTestDto,
  WalkTestQueryDto,
} from '../history/proven-point.dto.js';
import { MoveVisitDto, VisitMoveListDto } from './visit-move.dto.js';
import { VisitMoveService } from './visit-move.service.js';
import { LookListDto, LookPageDto, TakeLooksDto } from '../looks/look.dto.js';
import { ReadingDto, ReadingPageDto } from '../readings/reading.dto.js';
import { CreateReadingDto } from '../readings/take-reading.dto.js';
import { VisitWithdrawalDto, WithdrawDto } from '../reports/withdrawal.dto.js';
import { VisitChecklistDto } from './visit-checklist.dto.js';
import { VisitDto } from './visit.dto.js';
import { VisitWorkService } from './visit-work.service.js';

/** What happens on a visit. Nothing of it is ever changed afterwards. */
@ApiTags('visits')
@Controller('visits/:visitId')
export class VisitWorkController {
  constructor(
    private readonly moves: VisitMoveService,
    private readonly work: VisitWorkService,
  ) {}

  /** Takes the visit to another state. */
  @Post('moves')
  @ApiProblems(404, 409, 422)
  move(@IdParam('visitId') visitId: string, @Body() move: MoveVisitDto): Promise<VisitDto> {
    return this.moves.move(visitId, move);
  }

  /** Reads the moves that were made: who, when and why. */
  @Get('log')
  @ApiProblems(404, 422)
  log(@IdParam('visitId') visitId: string): Promise<VisitMoveListDto> {
    return this.moves.list(visitId);
  }

  /** Adds a reading, as it was entered. */
  @Post('readings')
  @ApiProblems(404, 409, 422)
  addReading(
    @IdParam('visitId') visitId: string,
    @Body() reading: CreateReadingDto,
  ): Promise<ReadingDto> {
    return this.work.addReading(visitId, reading);
  }

  /** Lists readings by when they were taken. */
  @Get('readings')
  @ApiProblems(404, 422)
  listReadings(
    @IdParam('visitId') visitId: string,
    @Query() { after, limit }: PageQueryDto,
  ): Promise<ReadingPageDto> {
    return this.work.listReadings(visitId, after, limit);
  }

  /** Takes back a reading that was entered in the wrong place: it stays, but is no evidence any more. */
  @Post('readings/:readingId/withdraw')
  @ApiProblems(404, 409, 422)
  withdrawReading(
    @IdParam('visitId') visitId: string,
    @IdParam('readingId') id: string,
    @Body() said: WithdrawDto,
  ): Promise<VisitWithdrawalDto> {
    return this.work.withdraw(visitId, 'reading', id, said);
  }

  /** Takes what somebody saw at a part, or at several: evidence on the tickets of the visit. */
  @Post('looks')
  @ApiProblems(404, 409, 422)
  async addLooks(
    @IdParam('visitId') visitId: string,
    @Body() sent: TakeLooksDto,
  ): Promise<LookListDto> {
    return { items: await this.work.addLooks(visitId, sent) };
  }

  /** Lists looks by when somebody looked. */
  @Get('looks')
  @ApiProblems(404, 422)
  listLooks(
    @IdParam('visitId') visitId: string,
    @Query() { after, limit }: PageQueryDto,
  ): Promise<LookPageDto> {
    return this.work.listLooks(visitId, after, limit);
  }

  /** Takes back what was said of the wrong part: it stays, but is no evidence any more. */
  @Post('looks/:lookId/withdraw')
  @ApiProblems(404, 409, 422)
  withdrawLook(
    @IdParam('visitId') visitId: string,
    @IdParam('lookId') id: string,
    @Body() said: WithdrawDto,
  ): Promise<VisitWithdrawalDto> {
    return this.work.withdraw(visitId, 'look', id, said);
  }

  /** Records a walk test: what was tried works, and is proven from then on. */
  @Post('walk-tests')
  @ApiProblems(404, 409, 422)
  addWalkTest(
    @IdParam('visitId') visitId: string,
    @Body() test: VisitWalkTestDto,
  ): Promise<KeptWalkTestDto> {
    return this.work.addWalkTest(visitId, test);
  }

  /** Lists the walk tests of the visit, oldest first. */
  @Get('walk-tests')
  @ApiProblems(404, 422)
  listWalkTests(
    @IdParam('visitId') visitId: string,
    @Query() { after, limit }: WalkTestQueryDto,
  ): Promise<KeptWalkTestPageDto> {
    return this.work.listWalkTests(visitId, after, limit);
  }

  /** Takes back a walk test: it stays, but proves nothing any more. */
  @Post('walk-tests/:walkTestId/withdraw')
  @ApiProblems(404, 409, 422)
  withdrawWalkTest(
    @IdParam('visitId') visitId: string,
    @IdParam('walkTestId') id: string,
    @Body() said: WithdrawDto,
  ): Promise<VisitWithdrawalDto> {
    return this.work.withdraw(visitId, 'walk-test', id, said);
  }

  /**
   * Lists what is to be heard where on a walk test of the whole site, ticked by the walk tests of the visit. To end a visit
   * for upkeep with some of it left out, once it was begun, is asked about.
   */
  @Get('checklist')
  @ApiProblems(404, 422)
  checklist(@IdParam('visitId') visitId: string): Promise<VisitChecklistDto> {
    return this.work.checklist(visitId);
  }
}
