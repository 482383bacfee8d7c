import { Injectable } from '@nestjs/common';
import { ConflictError, InvalidInputError, NotFoundError } from '../shared/domain-error.js';
import { readInstant } from '../shared/is-instant.js';
import { decodeCursor, type Page, toPage } from '../shared/page.js';
import { withoutFirm } from '../shared/without-firm.js';
import { SitesService } from '../sites/sites.service.js';
import { type Answer, askFirst } from '../reports/ask-first.js';
import { currentLanguage } from '../shared/request-language.js';
import { wordsIn } from '../words/index.js';
import { nameNodesOf } from '../sites/drawing.js';
import { heededOn } from '../reports/heeded.js';
import type { Heard } from '../reports/observation.js';
import { ObservationService } from '../reports/observation.service.js';
import { saidToWork, stillToProve } from '../reports/still-to-prove.js';
import type { ObservationDto } from '../reports/observation.dto.js';
import type { TicketEntryDto } from './ticket-entry.dto.js';
import { TicketLogService } from './ticket-log.service.js';
import { TicketEntryRepository } from './ticket-entry.repository.js';
import { ticketMovesFrom, OPEN_STATES } from './ticket-lifecycle.js';
import type { ReadingDto } from '../readings/reading.dto.js';
import { ReadingService, shown } from '../readings/reading.service.js';
import type { ListedTicketDto, TicketDto, TicketQueryDto, TicketSummaryDto } from './ticket.dto.js';
import type { Ticket } from './ticket.entity.js';
import { type ClosedFilter, TicketRepository } from './ticket.repository.js';
import { withWithdrawals } from '../reports/withdrawal.js';
import {
  type TicketDescription,
  TicketDescriptionRepository,
} from './ticket-description.repository.js';

const NOTHING_KNOWN: TicketDescription = {
  heard: [],
  answers: [],
  readings: [],
  withdrawals: [],
  withdrawalsOnVisits: [],
};

/** Reads tickets: one, a list, the log, the observations. */
@Injectable()
export class TicketService {
  constructor(
    private readonly tickets: TicketRepository,
    private readonly entries: TicketEntryRepository,
    private readonly descriptions: TicketDescriptionRepository,
    private readonly log: TicketLogService,
    private readonly observations: ObservationService,
    private readonly readings: ReadingService,
    private readonly sites: SitesService,
  ) {}

  async get(id: string): Promise<TicketDto> {
    return this.describe(await this.find(id));
  }

  async list({
    site,
    number,
    state,
    open,
    sort,
    after,
    limit,
  }: TicketQueryDto): Promise<Page<ListedTicketDto>> {
    const isByTime = sort === 'time-left';
    const states =
      state !== undefined ? [state] : open === true || isByTime ? OPEN_STATES : undefined;
    const key = decodeCursor(after, isByTime ? 2 : 1);
    if (key !== undefined && !isSortKey(key)) throw notOurs();
    const filter = { siteId: site, number, states, sort, after: key };
    return toPage(
      await this.tickets.list(filter, limit + 1),
      limit,
      ({ ticket, dueKey }) => [...(isByTime ? [dueKey] : []), String(ticket.number)],
      ({ ticket, likeliest, nextPromise }) => ({
        ...toSummary(ticket),
        likeliest: likeliest && {
          words: likeliest.inLanguages?.[currentLanguage()] ?? likeliest.words,
          probability: likeliest.probability,
        },
        nextPromise: nextPromise && {
          ...nextPromise,
          dueAt: nextPromise.dueAt === null ? null : new Date(nextPromise.dueAt),
        },
      }),
    );
  }

  async listLog(
    id: string,
    after: string | undefined,
    limit: number,
  ): Promise<Page<TicketEntryDto>> {
    await this.find(id);
    const entries = await this.entries.list(id, decodeCursor(after, 2), limit + 1);
    return toPage(
      entries,
      limit,
      (entry) => [entry.recordedAt.toISOString(), entry.id],
      withoutFirm,
    );
  }

  async listObservations(
    id: string,
    after: string | undefined,
    limit: number,
  ): Promise<Page<ObservationDto>> {
    await this.find(id);
    const rows = await this.observations.pageOfTicket(id, decodeCursor(after, 2), limit + 1);
    const told = await this.log.tellWithdrawals(rows);
    const keyOf = (one: ObservationDto) => [one.observedAt.toISOString(), one.id];
    return toPage(told, limit, keyOf, (one) => one);
  }

  async listReadings(
    id: string,
    after: string | undefined,
    limit: number,
  ): Promise<Page<ReadingDto>> {
    await this.find(id);
    const rows = await this.readings.pageAbout(id, decodeCursor(after, 2), limit + 1);
    const told = await this.log.tellWithdrawals(rows);
    const keyOf = (one: ReadingDto) => [one.takenAt.toISOString(), one.id];
    return toPage(told, limit, keyOf, (one) => one);
  }

  /** The ticket with what there is to do about it. */
  async describe(ticket: Ticket): Promise<TicketDto> {
    return this.describeBy(ticket, (await this.descriptions.read([ticket.id])).get(ticket.id));
  }

  /** Tickets with what there is to do about each, read together. */
  async describeAll(tickets: readonly Ticket[]): Promise<TicketDto[]> {
    const descriptions = await this.descriptions.read(tickets.map(({ id }) => id));
    const described: TicketDto[] = [];
    for (const ticket of tickets)
      described.push(await this.describeBy(ticket, descriptions.get(ticket.id)));
    return described;
  }

  private async describeBy(
    ticket: Ticket,
    description: TicketDescription = NOTHING_KNOWN,
  ): Promise<TicketDto> {
    const { answers, readings } = description;
    const withdrawals = [
      ...description.withdrawals,
      ...description.withdrawalsOnVisits.map((one) => ({ ...one, details: one })),
    ];
    const drawing = await this.sites.drawing(ticket.siteId, ticket.asBuiltVersion);
    const { heard, setAside } = heededOn(drawing, description.heard);
    const answered = new Map(
      answers.map(({ details }) => [details.question ?? '', details.answer as Answer]),
    );
    const words = wordsIn(currentLanguage());
    const nameNode = nameNodesOf(drawing, words);
    const toProve = stillToProve(heard, ticket.period);
    return {
      ...toSummary(ticket),
      moves: ticketMovesFrom(ticket.state),
      trunks: troubledTrunks(description.heard),
      askFirst: askFirst(heard, answered, nameNode, words),
      stillToProve: toProve,
      saidToWork: saidToWork(heard, toProve),
      setAside: setAside.map((one) => ({
        ...one,
        words: words.setAside(nameNode(one.trunk, one.node), one),
      })),
      readings: withWithdrawals(readings.map(shown), withdrawals),
    };
  }

  async find(id: string): Promise<Ticket> {
    const ticket = await this.tickets.find(id);
    if (ticket === null) throw new NotFoundError('ticket', id);
    return ticket;
  }

  /** Those that there are, by their ids. */
  async findAll(ids: readonly string[]): Promise<Map<string, Ticket>> {
    const tickets = await this.tickets.listOfIds(ids);
    return new Map(tickets.map((ticket) => [ticket.id, ticket]));
  }

  /** The ticket, kept from others until the transaction ends; a merged one says where it went. */
  async findToChange(id: string): Promise<Ticket> {
    const ticket = await this.tickets.findLocked(id);
    if (ticket === null) throw new NotFoundError('ticket', id);
    if (ticket.mergedInto !== null) {
      throw new ConflictError(
        `Ticket ${ticket.number} was merged; what is new about it belongs to the ticket it went into.`,
        { mergedInto: ticket.mergedInto },
      );
    }
    return ticket;
  }

  /** The same, of a ticket that is not closed. */
  async findOpenToChange(id: string): Promise<Ticket> {
    const ticket = await this.findToChange(id);
    if (ticket.state === 'closed') {
      throw new ConflictError(`Ticket ${ticket.number} is closed; reopen it first.`, {
        allowed: ticketMovesFrom('closed'),
      });
    }
    return ticket;
  }

  /** Closed in a period, oldest first; at most `count`, after the given ticket. */
  listClosed(filter: ClosedFilter, after: Ticket | undefined, count: number): Promise<Ticket[]> {
    return this.tickets.listClosed(filter, after, count);
  }
}

function toSummary(ticket: Ticket): TicketSummaryDto {
  const { firmId, period, ...summary } = ticket;
  return summary;
}

function troubledTrunks(heard: readonly Heard[]): string[] {
  const troubled = heard.filter(({ outcome }) => outcome !== 'works');
  return [...new Set(troubled.map(({ trunk }) => trunk))].sort();
}

/** What is due and a number, or the number alone. */
function isSortKey(key: readonly string[]): boolean {
  const due = key.length === 2 ? key[0] : undefined;
  const isDue = due === undefined || due === 'infinity' || readInstant(due) !== undefined;
  return isDue && /^\d{1,9}$/.test(key.at(-1) ?? '');
}

function notOurs(): InvalidInputError {
  return new InvalidInputError([{ field: 'after', reason: 'is not a cursor that was given here' }]);
}
