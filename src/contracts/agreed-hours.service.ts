import { Injectable } from '@nestjs/common';
import type { FieldError } from '../shared/domain-error.js';
import type { AgreedHours, PlannedTime } from '../visits/agreed-hours.js';
import { closedByDay } from './closed-time.js';
import { ContractsService } from './contracts.service.js';
import { refuseVisitTime } from './visit-hours.js';

/** Whether a planned visit is within the hours that the contract in force has for visits. */
@Injectable()
export class AgreedHoursService implements AgreedHours {
  constructor(private readonly contracts: ContractsService) {}

  async refuse(planned: PlannedTime): Promise<FieldError[]> {
    const contract = await this.contracts.contractAt(planned.siteId, planned.on);
    if (contract === null) return [];
    const { visitHours, coverage } = contract;
    const avoided = await this.contracts.listCalendars(visitHours.avoidCalendarIds);
    const closed = closedByDay([
      ...coverage.closedDays.map((time) => ({ ...time, why: 'closed-day' as const })),
      ...avoided
        .flatMap(({ times }) => times)
        .map((time) => ({ ...time, why: 'calendar' as const })),
    ]);
    const windows = visitHours.windows.length > 0 ? visitHours.windows : coverage.windows;
    return refuseVisitTime(planned, windows, closed);
  }
}
