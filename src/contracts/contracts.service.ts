import { Injectable } from '@nestjs/common';
import { NotFoundError } from '../shared/domain-error.js';
import type { ClosedCalendar } from './closed-calendar.entity.js';
import { ClosedCalendarRepository } from './closed-calendar.repository.js';
import { ContractRepository, type SitedContract } from './contract.repository.js';
import { inForceOn } from './site-cover.js';

/** What other features may ask about contracts; each within a transaction. */
@Injectable()
export class ContractsService {
  constructor(
    private readonly contracts: ContractRepository,
    private readonly calendars: ClosedCalendarRepository,
  ) {}

  /** A not-found error where there is none. */
  async get(id: string): Promise<SitedContract> {
    const contract = await this.contracts.find(id);
    if (contract === null) throw new NotFoundError('contract', id);
    return contract;
  }

  /** The contract of a site in force on a day. */
  async contractAt(siteId: string, day: string): Promise<SitedContract | null> {
    const contracts = await this.contracts.listOfSite(siteId);
    const periods = contracts.map((one) => ({ ...one, contractId: one.id }));
    return inForceOn(periods, day) ?? null;
  }

  /** Every contract that ever covered each of the sites, oldest first, in two statements. */
  listOfSites(siteIds: readonly string[]): Promise<Map<string, SitedContract[]>> {
    return this.contracts.listOfSites(siteIds);
  }

  /** By site: the hours in which visits may be made on a day, in order; a site without a contract then is not in it. */
  async visitHoursOn(
    siteIds: string[],
    day: string,
  ): Promise<Map<string, { from: string; until: string }[]>> {
    const weekday = new Date(`${day}T00:00:00Z`).getUTCDay() || 7;
    const windows = await this.contracts.visitWindows(siteIds, day);
    return new Map(
      [...windows].map(([siteId, all]) => [
        siteId,
        all
          .filter((window) => window.weekday === weekday)
          .sort((one, other) => (one.from < other.from ? -1 : 1)),
      ]),
    );
  }

  listCalendars(ids: string[]): Promise<ClosedCalendar[]> {
    return this.calendars.listOfIds(ids);
  }
}
