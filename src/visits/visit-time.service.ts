import { Injectable } from '@nestjs/common';
import { Clock } from '../shared/clock.js';
import { ConflictError, type FieldError, InvalidInputError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import { AgreedHours, type PlannedTime } from './agreed-hours.js';
import type { AskedAbout } from './visit-time.dto.js';
import { VisitTimeRepository } from './visit-time.repository.js';

/** A visit as far as its time goes. */
export interface TimedVisit extends PlannedTime {
  id: string;
  technicianId: string | null;
  /** Whether it is for upkeep: for those visits hours are agreed. */
  upkeep: boolean;
}

/** Asks about a visit's time before it is kept: whether it is meant to be in the past, twice at once, or out of hours. */
@Injectable()
export class VisitTimeService {
  constructor(
    private readonly times: VisitTimeRepository,
    private readonly sites: SitesService,
    private readonly agreed: AgreedHours,
    private readonly clock: Clock,
  ) {}

  async check(visit: TimedVisit, confirmed: readonly AskedAbout[]): Promise<void> {
    const errors = checkTimes(visit);
    if (errors.length > 0) throw new InvalidInputError(errors);
    if (!confirmed.includes('outside-hours') && visit.kind === 'planned' && visit.upkeep) {
      const refused = await this.agreed.refuse(visit);
      if (refused.length > 0) throw new InvalidInputError(refused);
    }
    const asked: AskedAbout[] = [];
    const reasons: string[] = [];
    if (!confirmed.includes('in-the-past') && (await this.isPast(visit))) {
      asked.push('in-the-past');
      reasons.push(`Its time, on ${visit.on}, has gone by.`);
    }
    const clashes = confirmed.includes('double-booked') ? [] : await this.times.listClashing(visit);
    if (clashes.length > 0) {
      asked.push('double-booked');
      reasons.push('Whoever is to go is on another visit then.');
    }
    if (asked.length === 0) return;
    throw new ConflictError(`${reasons.join(' ')} If it is meant so, send it with \`confirmed\`.`, {
      confirm: asked,
      visitIds: clashes,
    });
  }

  private async isPast({ siteId, on, untilTime }: TimedVisit): Promise<boolean> {
    const { zone } = await this.sites.get(siteId);
    return this.times.isOver({ on, untilTime, zone }, this.clock.now());
  }
}

function checkTimes({ fromTime, untilTime }: TimedVisit): FieldError[] {
  if ((fromTime === null) !== (untilTime === null)) {
    const field = fromTime === null ? '/fromTime' : '/untilTime';
    return [{ field, reason: 'is missing: a visit has both or neither' }];
  }
  if (fromTime === null || untilTime === null || fromTime < untilTime) return [];
  return [{ field: '/untilTime', reason: `is not after ${fromTime}` }];
}
