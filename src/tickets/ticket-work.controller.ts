import { Body, Controller, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { ApiProblems } from '../shared/api-problems.decorator.js';
import { IdParam } from '../shared/id-param.decorator.js';
import { InParts } from '../shared/in-parts.decorator.js';
import { ReportDto, WalkTestDto } from '../reports/report.dto.js';
import { ReportService } from './report.service.js';
import { TicketMergeService } from './ticket-merge.service.js';
import { TicketMoveService } from './ticket-move.service.js';
import {
  AnswerDto,
  FindingDto,
  MergeDto,
  MoveDto,
  NewerRecordDto,
  NoteDto,
  SplitDto,
} from './ticket-work.dto.js';
import { TicketRecordService } from './ticket-record.service.js';
import { TakeReadingDto } from '../readings/take-reading.dto.js';
import { TicketWorkService } from './ticket-work.service.js';
import { TicketDto } from './ticket.dto.js';
import { WithdrawDto } from '../reports/withdrawal.dto.js';
import { WithdrawalService } from './withdrawal.service.js';

/** What is done about a ticket: each route appends to its log and answers with the ticket. */
@ApiTags('tickets')
@Controller('tickets/:ticketId')
@ApiProblems(404, 409, 422)
export class TicketWorkController {
  constructor(
    private readonly reports: ReportService,
    private readonly work: TicketWorkService,
    private readonly moves: TicketMoveService,
    private readonly merging: TicketMergeService,
    private readonly withdrawals: WithdrawalService,
    private readonly records: TicketRecordService,
  ) {}

  /** Adds observations to the ticket. */
  @Post('reports')
  report(@IdParam('ticketId') id: string, @Body() report: ReportDto): Promise<TicketDto> {
    return this.reports.reportTicket(id, report);
  }

  /** Adds a note. */
  @Post('notes')
  note(@IdParam('ticketId') id: string, @Body() note: NoteDto): Promise<TicketDto> {
    return this.work.note(id, note);
  }

  /** Answers one of the questions that need no visit. */
  @Post('answers')
  answer(@IdParam('ticketId') id: string, @Body() answer: AnswerDto): Promise<TicketDto> {
    return this.work.answer(id, answer);
  }

  /** Records what was found, or that nothing was. */
  @Post('findings')
  @InParts()
  recordFinding(@IdParam('ticketId') id: string, @Body() finding: FindingDto): Promise<TicketDto> {
    return this.work.recordFinding(id, finding);
  }

  /** Takes a number read off a meter: volts at a place, a loop's ohms to a short, continuity of a stretch. */
  @Post('readings')
  takeReading(@IdParam('ticketId') id: string, @Body() taken: TakeReadingDto): Promise<TicketDto> {
    return this.work.takeReading(id, taken);
  }

  /** Takes back a reading that was entered in the wrong place: it stays, but is no evidence any more. */
  @Post('readings/:readingId/withdraw')
  withdrawReading(
    @IdParam('ticketId') id: string,
    @IdParam('readingId') readingId: string,
    @Body() said: WithdrawDto,
  ): Promise<TicketDto> {
    return this.withdrawals.withdrawReading(id, readingId, said);
  }

  /** Takes back what was said of the wrong room or function: it stays, but is no evidence any more. */
  @Post('observations/:observationId/withdraw')
  withdrawObservation(
    @IdParam('ticketId') id: string,
    @IdParam('observationId') observationId: string,
    @Body() said: WithdrawDto,
  ): Promise<TicketDto> {
    return this.withdrawals.withdrawObservation(id, observationId, said);
  }

  /** Records a walk test: room by room, what works. */
  @Post('walk-tests')
  recordWalkTest(@IdParam('ticketId') id: string, @Body() test: WalkTestDto): Promise<TicketDto> {
    return this.reports.recordWalkTest(id, test);
  }

  /** Takes the ticket to another state. */
  @Post('moves')
  @InParts()
  move(@IdParam('ticketId') id: string, @Body() move: MoveDto): Promise<TicketDto> {
    return this.moves.move(id, move);
  }

  /**
   * Has it go by the newest version of the record, which its location then goes by too. Where something that was said would
   * lose its place by it, nothing changes, and the answer (409) has it in `lost`, the first 20 of `lostCount`.
   */
  @Post('newer-record')
  goByNewerRecord(
    @IdParam('ticketId') id: string,
    @Body() sent: NewerRecordDto,
  ): Promise<TicketDto> {
    return this.records.moveOn(id, sent);
  }

  /** Gives its reports to another ticket of the site; answers with that one. */
  @Post('merge')
  merge(@IdParam('ticketId') id: string, @Body() merge: MergeDto): Promise<TicketDto> {
    return this.merging.merge(id, merge);
  }

  /** Opens a ticket of its own for some of its observations; answers with the new one. */
  @Post('split')
  split(@IdParam('ticketId') id: string, @Body() split: SplitDto): Promise<TicketDto> {
    return this.merging.split(id, split);
  }
}
