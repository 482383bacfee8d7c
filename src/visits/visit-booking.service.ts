import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { Principal } from '../people/principal.js';
import { isDay } from '../shared/is-day.js';
import { AgreedHours, type DayAtSite } from './agreed-hours.js';
import { mayPlan } from './own-visit.js';
import type { CreateVisitDto, VisitDto } from './visit.dto.js';
import { VisitService } from './visit.service.js';

/** Books visits by hand: public holidays are worked out before the transaction that keeps what was booked. */
@Injectable()
export class VisitBookingService {
  constructor(
    private readonly visits: VisitService,
    private readonly agreed: AgreedHours,
    private readonly transaction: FirmTransaction,
  ) {}

  /** The public holidays that days are at their sites, in order; null: none. Asked outside of any transaction. */
  holidaysOn(days: readonly DayAtSite[]): Promise<(string | null)[]> {
    return this.agreed.holidaysOn(days);
  }

  async create(principal: Principal, body: CreateVisitDto): Promise<VisitDto> {
    const visit = mayPlan(body, principal);
    const isMeant = visit.confirmed.includes('outside-hours');
    const [holiday = null] = await this.agreed.holidaysOn(isMeant ? [] : [visit]);
    return this.transaction.write(() => this.visits.create(visit, holiday));
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
