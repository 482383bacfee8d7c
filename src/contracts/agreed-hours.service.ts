import { Injectable } from '@nestjs/common';
import { ComputeService } from '../compute/compute.service.js';
import { FirmTransaction } from '../database/firm-transaction.js';
import type { FieldError } from '../shared/domain-error.js';
import type { AgreedHours, DayAtSite, PlannedTime } from '../visits/agreed-hours.js';
import { closedByDay } from './closed-time.js';
import { HOLIDAYS_ON } from './contract-tasks.js';
import { ContractsService } from './contracts.service.js';
import { inForceOn } from './site-cover.js';
import { refuseVisitTime } from './visit-hours.js';

/** Whether a visit is within the hours that the contract in force has for it: those of upkeep, else those that are covered. */
@Injectable()
export class AgreedHoursService implements AgreedHours {
  constructor(
    private readonly contracts: ContractsService,
    private readonly transaction: FirmTransaction,
    private readonly compute: ComputeService,
  ) {}

  async holidaysOn(days: readonly DayAtSite[]): Promise<(string | null)[]> {
    if (days.length === 0) return [];
    const siteIds = [...new Set(days.map(({ siteId }) => siteId))];
    const contracts = await this.transaction.read(() => this.contracts.listOfSites(siteIds));
    const asked = days.flatMap(({ siteId, on }, index) => {
      const periods = contracts.get(siteId)?.map((one) => ({ ...one, contractId: one.id }));
      const inForce = inForceOn(periods ?? [], on);
      const region = inForce?.coverage.publicHolidays ?? null;
      return region === null ? [] : [{ index, day: { region, on } }];
    });
    const named = new Map<number, string | null>();
    if (asked.length > 0) {
      const question = asked.map(({ day }) => day);
      const names = await this.compute.run(HOLIDAYS_ON, question);
      for (const [at, { index }] of asked.entries()) named.set(index, names[at] ?? null);
    }
    return days.map((_, index) => named.get(index) ?? null);
  }

  async refuse(planned: PlannedTime, holiday: string | null): Promise<FieldError[]> {
    const { siteId, kind, upkeep, on } = planned;
    const contract = await this.contracts.contractAt(siteId, on);
    if (contract === null) return [];
    const { visitHours, coverage } = contract;
    const isUpkeep = kind === 'planned' && upkeep;
    const own = isUpkeep && visitHours.windows.length > 0;
    const avoided = isUpkeep ? visitHours.avoidCalendarIds : coverage.calendarIds;
    const calendars = await this.contracts.listCalendars(avoided);
    const closed = closedByDay([
      ...coverage.closedDays.map((time) => ({ ...time, why: 'closed-day' as const })),
      ...calendars
        .flatMap(({ times }) => times)
        .map((time) => ({ ...time, why: 'calendar' as const })),
    ]);
    const onHoliday = { [on]: { why: 'public-holiday' as const, name: holiday ?? '' } };
    return refuseVisitTime(planned, own ? visitHours.windows : coverage.windows, {
      ...(holiday !== null && onHoliday),
      ...closed,
    });
  }
}
