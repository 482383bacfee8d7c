import { Injectable } from '@nestjs/common';
import { PersonService } from '../people/person.service.js';
import { JobService } from '../jobs/job.service.js';
import { Clock } from '../shared/clock.js';
import {
  ConflictError,
  InvalidInputError,
  NotFoundError,
  StaleVersionError,
} from '../shared/domain-error.js';
import { idOrNew } from '../shared/new-id.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { patchFields } from '../shared/validation.js';
import { withoutFirm } from '../shared/without-firm.js';
import { SitesService } from '../sites/sites.service.js';
import { TicketService } from '../tickets/ticket.service.js';
import { type Asker, mayChange } from './own-visit.js';
import { isSettled, visitMovesFrom } from './visit-lifecycle.js';
import { VisitChangeRepository } from './visit-change.repository.js';
import { VisitChangeNotesDto } from './visit-time.dto.js';
import { VisitTimeService } from './visit-time.service.js';
import { VisitTicketRepository } from './visit-ticket.repository.js';
import {
  type CreateVisitDto,
  type VisitDto,
  VisitFieldsDto,
  type VisitQueryDto,
} from './visit.dto.js';
import type { Visit } from './visit.entity.js';
import { referredTo } from './referred-to.js';
import { VisitRepository } from './visit.repository.js';

/** Who changes a visit, and the public holiday that its new day is. */
interface Changing {
  asker: Asker;
  holiday: string | null;
}

/** A plan of the day is accepted by who may plan. */
const PLANNED: Changing = { asker: { role: 'dispatcher', personId: null }, holiday: null };

/** Plans visits and reads them. */
@Injectable()
export class VisitService {
  constructor(
    private readonly visits: VisitRepository,
    private readonly visitTickets: VisitTicketRepository,
    private readonly jobs: JobService,
    private readonly sites: SitesService,
    private readonly people: PersonService,
    private readonly tickets: TicketService,
    private readonly times: VisitTimeService,
    private readonly changes: VisitChangeRepository,
    private readonly clock: Clock,
  ) {}

  /** `holiday`: the public holiday that its day is, which is asked about. */
  async create(
    { id: sentId, siteId, confirmed, ...fields }: CreateVisitDto,
    holiday: string | null = null,
  ): Promise<VisitDto> {
    await referredTo('/siteId', this.sites.get(siteId));
    await this.checkFields(fields, siteId);
    const id = idOrNew(sentId);
    await this.times.check({ ...fields, id, siteId }, confirmed, holiday);
    const { ticketIds, ...columns } = fields;
    const visit = {
      ...columns,
      id,
      siteId,
      state: 'planned' as const,
      workDone: null,
      startedAt: null,
      finishedAt: null,
      travelMinutes: null,
      version: 1,
      createdAt: this.clock.now(),
    };
    await this.visits.insert(visit);
    await this.visitTickets.replace(visit.id, ticketIds);
    if (ticketIds.length > 0) await this.jobs.enqueue('locations', { siteId: visit.siteId });
    return toDto(visit, ticketIds);
  }

  async get(id: string): Promise<VisitDto> {
    return this.describe(await this.find(id));
  }

  async list({ after, limit, ...filter }: VisitQueryDto): Promise<Page<VisitDto>> {
    const visits = await this.visits.list(filter, decodeCursor(after, 2), limit + 1);
    const tickets = await this.visitTickets.ticketsOfVisits(visits.map(({ id }) => id));
    return toPage(
      visits,
      limit,
      (visit) => [visit.on, visit.id],
      (visit) => toDto(withoutFirm(visit), tickets.get(visit.id) ?? []),
    );
  }

  /** Changes what is planned, as long as the visit is still to be made. */
  async change(
    id: string,
    version: number,
    sent: Record<string, unknown>,
    { asker, holiday }: Changing = PLANNED,
  ): Promise<VisitDto> {
    const { confirmed, reason, ...patch } = sent;
    const notes = await patchFields(VisitChangeNotesDto, {}, { confirmed, reason });
    const visit = await this.find(id);
    mayChange(patch, asker);
    if (visit.version !== version) throw new StaleVersionError(visit.version);
    if (isSettled(visit.state)) {
      throw new ConflictError(`A visit that is ${visit.state} stays as it was; plan another one.`);
    }
    const { ticketIds: current } = await this.describe(visit);
    const fields = await patchFields(VisitFieldsDto, { ...visit, ticketIds: current }, patch);
    await this.checkFields(fields, visit.siteId);
    if (visit.state === 'under-way' && fields.technicianId === null) {
      throw invalid('/technicianId', 'is needed as long as the visit is under way');
    }
    const { ticketIds, ...columns } = fields;
    const changed = { ...visit, ...columns, version: version + 1 };
    await this.keepMoved(visit, changed, notes, holiday);
    await this.visits.update(changed, version);
    await this.visitTickets.replace(id, ticketIds);
    // What was read on it now says something about other tickets.
    await this.jobs.enqueue('locations', { siteId: changed.siteId });
    return toDto(withoutFirm(changed), ticketIds);
  }

  /** A visit moved to another time keeps why, and is asked about anew; one that another is to make is, but for its hours. */
  private async keepMoved(
    was: Visit,
    visit: Visit,
    notes: VisitChangeNotesDto,
    holiday: string | null,
  ): Promise<void> {
    const { on, fromTime, untilTime } = visit;
    const isMoved = on !== was.on || fromTime !== was.fromTime || untilTime !== was.untilTime;
    if (!isMoved && visit.technicianId === was.technicianId) return;
    const meant = isMoved ? notes.confirmed : [...notes.confirmed, 'outside-hours' as const];
    await this.times.check(visit, meant, holiday);
    if (!isMoved) return;
    const reason = notes.reason?.trim() ?? '';
    if (reason === '') throw invalid('/reason', 'is needed to move a visit to another time');
    await this.changes.insert({
      id: idOrNew(undefined),
      visitId: visit.id,
      changedAt: this.clock.now(),
      reason,
      wasOn: was.on,
      wasFromTime: was.fromTime,
      wasUntilTime: was.untilTime,
      on,
      fromTime,
      untilTime,
      ticketId: null,
      visitVersion: visit.version,
    });
  }

  async describe(visit: Visit): Promise<VisitDto> {
    const tickets = await this.visitTickets.ticketsOfVisits([visit.id]);
    return toDto(withoutFirm(visit), tickets.get(visit.id) ?? []);
  }

  async find(id: string): Promise<Visit> {
    const visit = await this.visits.find(id);
    if (visit === null) throw new NotFoundError('visit', id);
    return visit;
  }

  private async checkFields(fields: VisitFieldsDto, siteId: string): Promise<void> {
    const { technicianId, upkeep, ticketIds } = fields;
    if (!upkeep && ticketIds.length === 0) {
      throw invalid('/ticketIds', 'a visit is for upkeep, for at least one ticket, or for both');
    }
    if (technicianId !== null) await referredTo('/technicianId', this.people.get(technicianId));
    const known = await this.tickets.findAll(ticketIds);
    for (const [index, ticketId] of ticketIds.entries()) {
      const field = `/ticketIds/${index}`;
      const ticket = known.get(ticketId);
      if (ticket === undefined) throw invalid(field, `There is no ticket ${ticketId}.`);
      if (ticket.siteId !== siteId) {
        throw invalid(field, `ticket ${ticket.number} is of another site`);
      }
    }
  }
}

function toDto(visit: Omit<Visit, 'firmId'>, ticketIds: string[]): VisitDto {
  return { ...visit, ticketIds: ticketIds.toSorted(), moves: visitMovesFrom(visit.state) };
}

function invalid(field: string, reason: string): InvalidInputError {
  return new InvalidInputError([{ field, reason }]);
}
