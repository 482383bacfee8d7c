import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { InvalidInputError, MoveNotAllowedError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import { checkFinding, lookFound } from './check-finding.js';
import { isOfficeQuestion, lookAnswered } from '../reports/office-questions.js';
import { LookService } from '../looks/look.service.js';
import type { SeenPart } from '../looks/look.js';
import type { SaidDto } from '../reports/report.dto.js';
import { ReadingService } from '../readings/reading.service.js';
import type { TakeReadingDto } from '../readings/take-reading.dto.js';
import { idOrNew } from '../shared/new-id.js';
import { PredictionKeeper, type Thought } from './prediction-keeper.js';
import type { TicketDto } from './ticket.dto.js';
import type { Ticket } from './ticket.entity.js';
import { ticketMovesFrom, type TicketState } from './ticket-lifecycle.js';
import type { TakenFromVan } from './ticket-log.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketService } from './ticket.service.js';
import type { AnswerDto, FindingDto, MendingDto, NoteDto } from './ticket-work.dto.js';

/** All that is said on a ticket is read at once whenever it is located; so it takes so much of each kind and no more. */
const MOST = { note: 2000, answer: 1000, reading: 1000, finding: 500, mending: 500 } as const;

/** Records what is asked, said, found and mended on a ticket. */
@Injectable()
export class TicketWorkService {
  constructor(
    private readonly reader: TicketService,
    private readonly log: TicketLogService,
    private readonly sites: SitesService,
    private readonly readings: ReadingService,
    private readonly looks: LookService,
    private readonly predictions: PredictionKeeper,
    private readonly transaction: FirmTransaction,
  ) {}

  async note(ticketId: string, note: NoteDto): Promise<TicketDto> {
    const ticket = await this.reader.findToChange(ticketId);
    await this.log.checkRoom(ticket.id, 'note', MOST.note);
    await this.log.write(ticket, 'note', note, { note: note.note, step: note.step });
    return this.reader.describe(ticket);
  }

  /** What is answered about a part is a look at it. */
  async answer(ticketId: string, answer: AnswerDto): Promise<TicketDto> {
    const ticket = await this.reader.findToChange(ticketId);
    await this.log.checkRoom(ticket.id, 'answer', MOST.answer);
    const { askFirst } = await this.reader.describe(ticket);
    const known = askFirst.map(({ question }) => question);
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    if (!known.includes(answer.question) && !isOfficeQuestion(answer.question, drawing)) {
      const reason = `is not asked on this ticket; asked are: ${known.join(', ') || 'none'}`;
      throw new InvalidInputError([{ field: '/question', reason }]);
    }
    const { question, answer: given, note } = answer;
    const said = this.log.dated(answer);
    const entryId = await this.log.write(ticket, 'answer', said, { question, answer: given, note });
    const looked = lookAnswered(question, given);
    if (looked !== null) await this.keepLook(ticket, entryId, said, looked);
    return this.reader.describe(ticket);
  }

  /** Takes a number read off a meter; the entry of the log has its id. */
  async takeReading(ticketId: string, taken: TakeReadingDto): Promise<TicketDto> {
    const ticket = await this.reader.findOpenToChange(ticketId);
    await this.log.checkRoom(ticket.id, 'reading', MOST.reading);
    const sent = { id: idOrNew(taken.id), saidBy: taken.takenBy, saidAt: taken.takenAt };
    const takenAt = this.log.saidAt(sent, '/takenAt');
    const reading = await this.readings.check(ticket, taken.reading);
    const said = { ...sent, saidAt: takenAt };
    await this.log.write(ticket, 'reading', said, { reading, note: taken.note });
    await this.readings.addOnTicket({
      entryId: said.id,
      ticketId: ticket.id,
      period: ticket.period,
      reading,
      takenBy: taken.takenBy,
      takenAt,
      note: taken.note ?? null,
    });
    return this.reader.describe(ticket);
  }

  /** What was thought is worked out before the finding's transaction. */
  async recordFinding(ticketId: string, finding: FindingDto): Promise<TicketDto> {
    const thought = await this.predictions.think(ticketId);
    return this.transaction.write(() => this.writeFinding(ticketId, finding, thought));
  }

  private async writeFinding(
    ticketId: string,
    finding: FindingDto,
    thought: Thought | null,
  ): Promise<TicketDto> {
    const ticket = await this.reader.findOpenToChange(ticketId);
    await this.log.checkRoom(ticket.id, 'finding', MOST.finding);
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const { component, mode, minutes, note } = finding;
    const place = checkFinding(finding, drawing);
    const shares =
      place === null ? [] : await this.predictions.keepForFinding(ticket, place, finding, thought);
    const details = { place, component, mode, minutes, note, shares };
    const said = this.log.dated(finding);
    const entryId = await this.log.write(ticket, 'finding', said, details);
    const looked = lookFound(place, component, mode);
    if (looked !== null) await this.keepLook(ticket, entryId, said, looked);
    return this.reader.describe(ticket);
  }

  private async keepLook(
    { id: ticketId, period }: Ticket,
    entryId: string,
    { saidBy, saidAt: lookedAt }: SaidDto & { saidAt: Date },
    seen: SeenPart,
  ): Promise<void> {
    const on = { ticketId, period, entryId, saidBy, lookedAt, note: null };
    await this.looks.addOnTicket(on, [seen]);
  }

  /** A mending starts a new period of evidence; a temporary one wants a follow-up visit. */
  async recordMending(
    ticketId: string,
    done: MendingDto,
    takenFrom: TakenFromVan | undefined,
  ): Promise<TicketDto> {
    const ticket = await this.reader.findOpenToChange(ticketId);
    await this.log.checkRoom(ticket.id, 'mending', MOST.mending);
    const { mending, what, parts, minutes, note, followUpDueOn } = done;
    if (mending === 'temporary' && followUpDueOn == null) {
      const reason = 'is missing: a temporary mending wants a follow-up visit by some day';
      throw new InvalidInputError([{ field: '/followUpDueOn', reason }]);
    }
    if (mending === 'lasting' && followUpDueOn != null) {
      const reason = 'belongs to a temporary mending';
      throw new InvalidInputError([{ field: '/followUpDueOn', reason }]);
    }
    const state = mending === 'temporary' ? 'bridged' : 'mended';
    if (ticket.state !== state) assertMove(ticket, state);
    const changes = {
      state,
      followUpDueOn: followUpDueOn ?? null,
      period: ticket.period + 1,
    } as const;
    const details = { mending, what, parts, minutes, note, followUpDueOn, takenFrom };
    await this.log.write(ticket, 'mending', done, details, changes);
    return this.reader.describe(ticket);
  }
}

export function assertMove(ticket: Ticket, to: TicketState): void {
  const allowed = ticketMovesFrom(ticket.state);
  if (!allowed.includes(to)) throw new MoveNotAllowedError('ticket', ticket.state, to, allowed);
}
