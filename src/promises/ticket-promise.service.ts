import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { ConflictAtFieldError, ConflictError, InvalidInputError } from '../shared/domain-error.js';
import { currentLanguage } from '../shared/request-language.js';
import { SitesService } from '../sites/sites.service.js';
import type { Ticket } from '../tickets/ticket.entity.js';
import type { TicketEntry } from '../tickets/ticket-entry.entity.js';
import { TicketLogService } from '../tickets/ticket-log.service.js';
import { TicketService } from '../tickets/ticket.service.js';
import { clockWordsIn } from '../words/clock-words-in.js';
import { siteDay } from '../contracts/coverage.js';
import { ContractsService } from '../contracts/contracts.service.js';
import { PromiseClockService } from './promise-clock.service.js';
import { toClockDto } from './told-clock.js';
import type {
  BreachCauseDto,
  ContractClocksDto,
  PauseDto,
  ResumeDto,
  TicketClockDto,
  TroubleClassDto,
} from './ticket-promise.dto.js';

/** Tickets of a contract whose clocks are told at once. */
const MOST_OF_A_CONTRACT = 200;

/** Tells a ticket's clock, and writes down what stops it, what it goes by and why it was not kept. */
@Injectable()
export class TicketPromiseService {
  constructor(
    private readonly clocks: PromiseClockService,
    private readonly contracts: ContractsService,
    private readonly tickets: TicketService,
    private readonly log: TicketLogService,
    private readonly sites: SitesService,
    private readonly transaction: FirmTransaction,
  ) {}

  /** As it stands now, reckoned for whoever asks. */
  async clock(ticketId: string): Promise<TicketClockDto> {
    const asked = await this.transaction.read(() => this.clocks.read(ticketId));
    return toClockDto(await this.clocks.reckon(asked), clockWordsIn(currentLanguage()));
  }

  /** Of the newest tickets of a contract, reckoned together. */
  async clocksOfContract(contractId: string): Promise<ContractClocksDto> {
    const { listed, asked } = await this.transaction.read(async () => {
      const all = await this.clocks.listOfContract(contractId, MOST_OF_A_CONTRACT + 1);
      const ids = all.slice(0, MOST_OF_A_CONTRACT).map(({ id }) => id);
      return { listed: all, asked: await this.clocks.readAll(ids) };
    });
    const words = clockWordsIn(currentLanguage());
    const clocks = new Map(
      (await this.clocks.reckonAll(asked)).map((clock) => [
        clock.ticketId,
        toClockDto(clock, words),
      ]),
    );
    return {
      items: listed.flatMap(({ id, number, siteId }) => {
        const clock = clocks.get(id);
        return clock === undefined ? [] : [{ number, siteId, clock }];
      }),
      isCutOff: listed.length > MOST_OF_A_CONTRACT,
    };
  }

  async pause(ticketId: string, pause: PauseDto): Promise<TicketClockDto> {
    await this.transaction.write(async () => {
      const ticket = await this.tickets.findOpenToChange(ticketId);
      await this.checkContract(ticket, pause);
      const last = await this.lastStop(ticketId);
      if (last?.kind === 'pause') {
        const said = 'The clock is paused already; end that pause first.';
        throw new ConflictAtFieldError('/saidAt', said, { pausedAt: last.happenedAt });
      }
      this.refuseBefore(last?.happenedAt ?? ticket.openedAt, pause);
      const { reason, evidence } = pause;
      await this.log.write(ticket, 'pause', pause, { reason, evidence });
    });
    return this.clock(ticketId);
  }

  async resume(ticketId: string, resume: ResumeDto): Promise<TicketClockDto> {
    await this.transaction.write(async () => {
      const ticket = await this.tickets.findOpenToChange(ticketId);
      const last = await this.lastStop(ticketId);
      if (last?.kind !== 'pause') {
        throw new ConflictAtFieldError('/saidAt', 'The clock is not paused.');
      }
      this.refuseBefore(last.happenedAt, resume);
      await this.log.write(ticket, 'resume', resume, { note: resume.note });
    });
    return this.clock(ticketId);
  }

  async classify(ticketId: string, said: TroubleClassDto): Promise<TicketClockDto> {
    await this.transaction.write(async () => {
      const ticket = await this.tickets.findToChange(ticketId);
      const { troubleClass, reason } = said;
      await this.log.write(ticket, 'trouble-class', said, { troubleClass, reason });
    });
    return this.clock(ticketId);
  }

  async tellCause(ticketId: string, said: BreachCauseDto): Promise<TicketClockDto> {
    const asked = await this.transaction.read(() => this.clocks.read(ticketId));
    const { promises } = await this.clocks.reckon(asked);
    const state = promises.find(({ promise }) => promise === said.promise)?.state;
    if (state !== 'breached') {
      const words = `The promised ${said.promise} was not breached.`;
      throw new ConflictAtFieldError('/promise', words, { state });
    }
    await this.transaction.write(async () => {
      const ticket = await this.tickets.findToChange(ticketId);
      const { promise, cause } = said;
      await this.log.write(ticket, 'breach-cause', said, { promise, cause });
    });
    return this.clock(ticketId);
  }

  private async checkContract(ticket: Ticket, { reason }: PauseDto): Promise<void> {
    const { zone } = await this.sites.get(ticket.siteId);
    const day = siteDay(zone, ticket.openedAt.getTime());
    const contract = await this.contracts.contractAt(ticket.siteId, day);
    if (contract === null) {
      throw new ConflictError(
        'No contract was in force when it was reported: there is no clock to pause.',
      );
    }
    if (reason === 'part-on-order' && !contract.pausesForParts) {
      const words = `"${contract.title}" does not let the clock stop for parts.`;
      throw new ConflictAtFieldError('/reason', words, { contractId: contract.id });
    }
  }

  /** The pause, the end of one or the closing that came last. */
  private async lastStop(ticketId: string): Promise<TicketEntry | undefined> {
    return (await this.log.lastOfKind(ticketId, ['pause', 'resume'])) ?? undefined;
  }

  private refuseBefore(earliest: Date, said: PauseDto | ResumeDto): void {
    const at = this.log.saidAt(said);
    if (at >= earliest) return;
    const reason = `is before ${earliest.toISOString()}, when it was reported or the clock last stopped or went on`;
    throw new InvalidInputError([{ field: '/saidAt', reason }]);
  }
}
