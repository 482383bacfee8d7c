import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { JobService } from '../jobs/job.service.js';
import { ConflictError, InvalidInputError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import { LookService } from '../looks/look.service.js';
import { ObservationService } from '../reports/observation.service.js';
import { PredictionKeeper, type Thought } from './prediction-keeper.js';
import { OPEN_STATES, SENDING_STATES } from './ticket-lifecycle.js';
import type { MoveDto } from './ticket-work.dto.js';
import { TicketEntryRepository } from './ticket-entry.repository.js';
import { TicketLogService } from './ticket-log.service.js';
import { ReadingService } from '../readings/reading.service.js';
import { assertMove } from './ticket-work.service.js';
import type { TicketDto } from './ticket.dto.js';
import type { Ticket } from './ticket.entity.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';

/** Takes tickets from state to state. */
@Injectable()
export class TicketMoveService {
  constructor(
    private readonly tickets: TicketRepository,
    private readonly observations: ObservationService,
    private readonly readings: ReadingService,
    private readonly looks: LookService,
    private readonly entries: TicketEntryRepository,
    private readonly reader: TicketService,
    private readonly log: TicketLogService,
    private readonly sites: SitesService,
    private readonly predictions: PredictionKeeper,
    private readonly transaction: FirmTransaction,
    private readonly jobs: JobService,
  ) {}

  /** What was thought is worked out before the move's transaction. */
  async move(ticketId: string, move: MoveDto): Promise<TicketDto> {
    const thought = SENDING_STATES.includes(move.to) ? await this.think(ticketId) : null;
    return this.transaction.write(async () => {
      return this.take(await this.findLocked(ticketId), move, thought);
    });
  }

  /** Where its trouble is thought to lie before somebody is sent, outside of the transaction in which they are. */
  think(ticketId: string): Promise<Thought | null> {
    return this.predictions.think(ticketId);
  }

  /** Within a transaction: somebody must go. A ticket of which that was said already stays as it is. */
  async send(
    ticketId: string,
    { saidBy, reason }: Pick<MoveDto, 'saidBy' | 'reason'>,
    thought: Thought | null,
  ): Promise<void> {
    const ticket = await this.findLocked(ticketId);
    if (ticket.state === 'to-visit') return;
    await this.take(ticket, { saidBy, to: 'to-visit', reason, note: null }, thought);
  }

  /** As it is once nobody else changes its site. */
  private async findLocked(ticketId: string): Promise<Ticket> {
    const found = await this.reader.find(ticketId);
    await this.sites.lockSite(found.siteId);
    return (await this.tickets.findLocked(ticketId)) ?? found;
  }

  private async take(ticket: Ticket, sent: MoveDto, thought: Thought | null): Promise<TicketDto> {
    const move = this.log.dated(sent);
    assertMove(ticket, move.to);
    const isOpen = OPEN_STATES.includes(ticket.state);
    if (SENDING_STATES.includes(move.to)) await this.checkAsked(ticket, move);
    if (move.to === 'closed') await this.checkProven(ticket, move);
    if (!isOpen && !hasReason(move)) throw missingReason('to take a ticket up again');
    if (ticket.state === 'merged') await this.takeBack(ticket, move);
    const isSent = SENDING_STATES.includes(move.to) && !SENDING_STATES.includes(ticket.state);
    if (isSent) await this.predictions.keep(ticket, move.to, thought);
    const wasClosed = ticket.state === 'closed';
    const { to, reason, note } = move;
    await this.log.write(
      ticket,
      'move',
      move,
      { from: ticket.state, to, reason, note },
      { state: to, mergedInto: null, closedAt: to === 'closed' ? move.saidAt : null },
    );
    if (to === 'closed') await this.jobs.enqueue('freed-visits', { ticketId: ticket.id });
    // What was found on it counts for the rates while it is closed.
    if (wasClosed || to === 'closed') await this.jobs.enqueue('learned-rates', {});
    return this.reader.describe(ticket);
  }

  /** Nobody is sent before what needs no visit was asked. */
  private async checkAsked(ticket: Ticket, move: MoveDto): Promise<void> {
    const { askFirst } = await this.reader.describe(ticket);
    const unasked = askFirst.filter(({ answer }) => answer === null);
    if (unasked.length === 0 || hasReason(move)) return;
    throw new ConflictError(
      'Before anybody is sent, ask what needs no visit, or give the reason for not asking: ' +
        unasked.map(({ text }) => text).join(' '),
      { unasked: unasked.map(({ question }) => question) },
    );
  }

  private async checkProven(ticket: Ticket, move: MoveDto): Promise<void> {
    if (hasReason(move)) return;
    const { stillToProve } = await this.reader.describe(ticket);
    if (stillToProve.length > 0) {
      throw new ConflictError(
        'Close it after a walk test has shown every reported function to work, or give a reason.',
        { stillToProve },
      );
    }
    if (ticket.followUpDueOn !== null) {
      throw new ConflictError(
        `It was mended for the time being only, with a follow-up visit due by ${ticket.followUpDueOn}: ` +
          'record the lasting mending, or give a reason.',
      );
    }
  }

  /** Undoes a merge: what it took along comes back, unless it was moved on from there by a split. */
  private async takeBack(ticket: Ticket, move: MoveDto): Promise<void> {
    const other = await this.findHolder(ticket);
    if (other === null) return;
    const merged = (await this.entries.lastOfKind(ticket.id, ['merged-away']))?.details;
    const standing = (went: string[] = [], there: string[]) =>
      there.filter((id) => went.includes(id));
    const heard = await this.observations.idsOfTicket(other.id);
    const observationIds = standing(merged?.observationIds, heard);
    const readingIds = standing(merged?.readingIds, await this.readings.idsOfTicket(other.id));
    const lookIds = standing(merged?.lookIds, await this.looks.idsOfTicket(other.id));
    await this.observations.moveTo(ticket.id, observationIds);
    await this.readings.moveTo(ticket.id, readingIds);
    await this.looks.moveTo(ticket.id, lookIds);
    const said = { ...move, id: undefined };
    const went = { observationIds, readingIds, lookIds };
    const details = { otherTicketId: ticket.id, ...went, reason: move.reason };
    await this.log.write(other, 'split-off', said, details);
  }

  /** The ticket that has what this one had: the one it was merged into may be merged away itself. */
  private async findHolder({ mergedInto }: Ticket): Promise<Ticket | null> {
    if (mergedInto === null) return null;
    const other = await this.tickets.findLocked(mergedInto);
    return other?.state === 'merged' ? this.findHolder(other) : other;
  }
}

function hasReason({ reason }: MoveDto): boolean {
  return reason != null && reason.trim() !== '';
}

function missingReason(why: string): InvalidInputError {
  return new InvalidInputError([{ field: '/reason', reason: `is needed ${why}` }]);
}
