import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Principal } from '../people/principal.js';
import { InvalidInputError } from '../shared/domain-error.js';
import { isDay } from '../shared/is-day.js';
import type { Thought } from '../tickets/prediction-keeper.js';
import { TicketMoveService } from '../tickets/ticket-move.service.js';
import { AgreedHours, type DayAtSite } from './agreed-hours.js';
import { mayPlan } from './own-visit.js';
import { referredTo } from './referred-to.js';
import type { CreateVisitDto, SendingDto, VisitDto } from './visit.dto.js';
import { VisitService } from './visit.service.js';

interface Sent {
  ticketId: string;
  said: SendingDto;
  thought: Thought | null;
}

/** Books visits by hand: public holidays are worked out before the transaction that keeps what was booked. */
@Injectable()
export class VisitBookingService {
  constructor(
    private readonly visits: VisitService,
    private readonly agreed: AgreedHours,
    private readonly moves: TicketMoveService,
    private readonly transaction: FirmTransaction,
  ) {}

  /** The public holidays that days are at their sites, in order; null: none. Asked outside of any transaction. */
  holidaysOn(days: readonly DayAtSite[]): Promise<(string | null)[]> {
    return this.agreed.holidaysOn(days);
  }

  async create(principal: Principal, body: CreateVisitDto): Promise<VisitDto> {
    const { sending, ...visit } = mayPlan(body, principal);
    const isMeant = visit.confirmed.includes('outside-hours');
    const [holiday = null] = await this.agreed.holidaysOn(isMeant ? [] : [visit]);
    const sent = sending ? await this.thoughtOf(visit, sending) : [];
    return this.transaction.write(async () => {
      for (const { ticketId, said, thought } of sent)
        await this.moves.send(ticketId, said, thought);
      return this.visits.create(visit, holiday);
    });
  }

  /** Each ticket that somebody is sent to, with where its trouble is thought to lie. */
  private async thoughtOf(
    { ticketIds }: Pick<CreateVisitDto, 'ticketIds'>,
    said: SendingDto,
  ): Promise<Sent[]> {
    const other = said.ticketIds.findIndex((id) => !ticketIds.includes(id));
    if (other >= 0) {
      const reason = 'is none of the tickets that the visit is for';
      throw new InvalidInputError([{ field: `/sending/ticketIds/${other}`, reason }]);
    }
    const sent: Sent[] = [];
    for (const [i, ticketId] of said.ticketIds.entries()) {
      const thought = await referredTo(`/sending/ticketIds/${i}`, this.moves.think(ticketId));
      sent.push({ ticketId, said, thought });
    }
    return sent;
  }

  async change(
    id: string,
    version: number,
    patch: Record<string, unknown>,
    asker: Principal,
  ): Promise<VisitDto> {
    const holiday = await this.holidayOf(id, patch['on']);
    return this.transaction.write(() => this.visits.change(id, version, patch, { asker, holiday }));
  }

  /** Of the day to which it is moved; one that stays on its day was asked about before. */
  private async holidayOf(id: string, on: unknown): Promise<string | null> {
    if (typeof on !== 'string' || !isDay(on)) return null;
    const { siteId } = await this.transaction.read(() => this.visits.find(id));
    const [holiday = null] = await this.agreed.holidaysOn([{ siteId, on }]);
    return holiday;
  }
}
