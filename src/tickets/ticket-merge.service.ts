import { Injectable } from '@nestjs/common';
import { ConflictError, InvalidInputError, NotFoundError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import { LookService } from '../looks/look.service.js';
import { ObservationService } from '../reports/observation.service.js';
import { OPEN_STATES } from './ticket-lifecycle.js';
import { TicketLogService } from './ticket-log.service.js';
import { ReadingService } from '../readings/reading.service.js';
import type { MergeDto, SplitDto } from './ticket-work.dto.js';
import { assertMove } from './ticket-work.service.js';
import type { TicketDto } from './ticket.dto.js';
import type { Ticket } from './ticket.entity.js';
import { TicketRepository } from './ticket.repository.js';
import { TicketService } from './ticket.service.js';

/** Merges and splits tickets. Observations move, readings and looks when all does; both logs say so; nothing is lost. */
@Injectable()
export class TicketMergeService {
  constructor(
    private readonly tickets: TicketRepository,
    private readonly observations: ObservationService,
    private readonly readings: ReadingService,
    private readonly looks: LookService,
    private readonly reader: TicketService,
    private readonly log: TicketLogService,
    private readonly sites: SitesService,
  ) {}

  /** Gives the reports of one ticket to another of the same site; answers with the other. */
  async merge(ticketId: string, merge: MergeDto): Promise<TicketDto> {
    const { siteId } = await this.reader.find(ticketId);
    await this.sites.lockSite(siteId);
    const ticket = await this.reader.findToChange(ticketId);
    const target = await this.findTarget(ticket, merge.into);
    assertMove(ticket, 'merged');
    const observationIds = await this.observations.idsOfTicket(ticket.id);
    await this.observations.checkRoom(target.id, observationIds.length);
    await this.observations.moveTo(target.id, observationIds);
    const readingIds = await this.readings.idsOfTicket(ticket.id);
    await this.readings.moveTo(target.id, readingIds);
    const lookIds = await this.looks.idsOfTicket(ticket.id);
    await this.looks.moveTo(target.id, lookIds);
    const details = { observationIds, readingIds, lookIds, note: merge.note };
    await this.log.write(
      ticket,
      'merged-away',
      merge,
      { ...details, otherTicketId: target.id },
      { state: 'merged', mergedInto: target.id },
    );
    await this.log.write(
      target,
      'merged-in',
      { ...merge, id: undefined },
      { ...details, otherTicketId: ticket.id },
      {
        followUpDueOn: earlier(ticket.followUpDueOn, target.followUpDueOn),
        urgentReason: target.urgentReason ?? ticket.urgentReason,
        period: Math.max(ticket.period, target.period),
      },
    );
    return this.reader.describe(target);
  }

  /** Opens a ticket of its own for some of a ticket's observations; answers with the new one. */
  async split(ticketId: string, sent: SplitDto): Promise<TicketDto> {
    const split = this.log.dated(sent);
    const { siteId } = await this.reader.find(ticketId);
    await this.sites.lockSite(siteId);
    const ticket = await this.reader.findToChange(ticketId);
    if (!OPEN_STATES.includes(ticket.state)) {
      throw new ConflictError(`Ticket ${ticket.number} is ${ticket.state}; reopen it first.`);
    }
    const observationIds = [...new Set(split.observationIds)];
    await this.checkSplit(ticket, observationIds);
    const details = { observationIds, note: split.note };
    const { ticket: opened } = await this.log.open(
      {
        siteId: ticket.siteId,
        asBuiltVersion: ticket.asBuiltVersion,
        openedBy: split.saidBy.name,
        openedAt: split.saidAt,
        urgentReason: ticket.urgentReason,
        // Its observations keep the periods they were counted in.
        period: ticket.period,
      },
      'split-from',
      { ...split, id: undefined },
      { ...details, otherTicketId: ticket.id },
    );
    await this.observations.moveTo(opened.id, observationIds);
    await this.log.write(ticket, 'split-off', split, { ...details, otherTicketId: opened.id });
    return this.reader.describe(opened);
  }

  private async findTarget(ticket: Ticket, into: string): Promise<Ticket> {
    const target = await this.tickets.findLocked(into);
    if (target === null) throw new NotFoundError('ticket', into);
    const reason =
      target.id === ticket.id
        ? 'is this ticket itself'
        : target.siteId !== ticket.siteId
          ? 'is a ticket of another site'
          : OPEN_STATES.includes(target.state)
            ? undefined
            : `is a ticket that is ${target.state}`;
    if (reason !== undefined) throw new InvalidInputError([{ field: '/into', reason }]);
    return target;
  }

  private async checkSplit(ticket: Ticket, observationIds: string[]): Promise<void> {
    const { own, isAllThatStands } = await this.observations.standing(ticket.id, observationIds);
    const errors = observationIds
      .map((id, index) => ({ id, field: `/observationIds/${index}` }))
      .filter(({ id }) => !own.has(id))
      .map(({ field }) => ({ field, reason: 'is not an observation of this ticket' }));
    if (errors.length > 0) throw new InvalidInputError(errors);
    if (isAllThatStands) {
      const reason = 'are all there are: nothing would be left on this ticket';
      throw new InvalidInputError([{ field: '/observationIds', reason }]);
    }
  }
}

function earlier(one: string | null, other: string | null): string | null {
  if (one === null || other === null) return one ?? other;
  return one < other ? one : other;
}
