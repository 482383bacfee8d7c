import { Injectable } from '@nestjs/common';
import type { JobData } from '../jobs/job-kinds.js';
import type { Job } from '../jobs/job-loop.service.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import { NotFoundError } from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import type { Ticket } from '../tickets/ticket.entity.js';
import { TicketService } from '../tickets/ticket.service.js';
import { VisitChangeRepository } from './visit-change.repository.js';
import { VisitMoveRepository } from './visit-move.repository.js';
import { VisitTicketRepository } from './visit-ticket.repository.js';
import { VisitRepository } from './visit.repository.js';

/** Who did what nobody did by hand. */
const BY_ITSELF = 'Lastheard';

/** Frees the visits that were still to be made for a ticket that was closed: called off where they are for nothing else. */
@Injectable()
export class FreedVisitService {
  constructor(
    private readonly visits: VisitRepository,
    private readonly visitTickets: VisitTicketRepository,
    private readonly moves: VisitMoveRepository,
    private readonly changes: VisitChangeRepository,
    private readonly tickets: TicketService,
    private readonly clock: Clock,
    jobs: JobService,
  ) {
    jobs.handle('freed-visits', (job) => this.freeOfClosed(job));
  }

  private async freeOfClosed({ data, finish }: Job<JobData['freed-visits']>): Promise<void> {
    await finish(async () => {
      const ticket = await this.findClosed(data.ticketId);
      if (ticket === null) return;
      const filter = { ticket: ticket.id, state: 'planned' } as const;
      for (const { id } of await this.visits.list(filter, undefined, 200)) {
        await this.free(id, ticket);
      }
    });
  }

  /** Null where it was taken up again meanwhile. */
  private async findClosed(ticketId: string): Promise<Ticket | null> {
    try {
      const ticket = await this.tickets.find(ticketId);
      return ticket.state === 'closed' ? ticket : null;
    } catch (error) {
      if (error instanceof NotFoundError) return null;
      throw error;
    }
  }

  private async free(visitId: string, ticket: Ticket): Promise<void> {
    const visit = await this.visits.findLocked(visitId);
    if (visit?.state !== 'planned') return;
    const own = (await this.visitTickets.ticketsOfVisits([visitId])).get(visitId) ?? [];
    const others = own.filter((id) => id !== ticket.id);
    const isForMore = visit.upkeep || others.length > 0;
    const version = visit.version + 1;
    const state = isForMore ? visit.state : ('called-off' as const);
    const now = this.clock.now();
    const reason = `Ticket ${ticket.number} was closed.`;
    await this.visits.update({ ...visit, state, version }, visit.version);
    if (!isForMore) {
      await this.moves.insert({
        id: idOrNew(undefined),
        visitId,
        fromState: visit.state,
        toState: 'called-off',
        movedBy: BY_ITSELF,
        movedAt: now,
        recordedAt: now,
        reason,
        workDone: null,
        visitVersion: version,
      });
      return;
    }
    await this.visitTickets.replace(visitId, others);
    const { on, fromTime, untilTime } = visit;
    await this.changes.insert({
      id: idOrNew(undefined),
      visitId,
      changedAt: now,
      reason,
      wasOn: on,
      wasFromTime: fromTime,
      wasUntilTime: untilTime,
      on,
      fromTime,
      untilTime,
      ticketId: ticket.id,
      visitVersion: version,
    });
  }
}
