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
}

interface Asked extends FieldError {
  about: AskedAbout;
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

  async check(
    visit: TimedVisit,
    confirmed: readonly AskedAbout[],
    holiday: string | null,
  ): Promise<void> {
    const errors = checkTimes(visit);
    if (errors.length > 0) throw new InvalidInputError(errors);
    const asked: Asked[] = [];
    if (!confirmed.includes('outside-hours')) {
      const refused = await this.agreed.refuse(visit, holiday);
      asked.push(...refused.map((one) => ({ about: 'outside-hours' as const, ...one })));
    }
    if (!confirmed.includes('in-the-past') && (await this.isPast(visit))) {
      const reason = `Its time, on ${visit.on}, has gone by.`;
      asked.push({ about: 'in-the-past', field: '/on', reason });
    }
    const clashes = confirmed.includes('double-booked') ? [] : await this.times.listClashing(visit);
    if (clashes.length > 0) {
      const reason = 'Whoever is to go is on another visit then.';
      asked.push({ about: 'double-booked', field: '/technicianId', reason });
    }
    ask(asked, clashes);
  }

  private async isPast({ siteId, on, untilTime }: TimedVisit): Promise<boolean> {
    const { zone } = await this.sites.get(siteId);
    return this.times.isOver({ on, untilTime, zone }, this.clock.now());
  }
}

/** All that may be a mistake at once, each at its field; hours that were not agreed make the input wrong. */
function ask(asked: readonly Asked[], visitIds: readonly string[]): void {
  if (asked.length === 0) return;
  const confirm = [...new Set(asked.map(({ about }) => about))];
  const errors = asked.map(({ field, reason }) => ({ field, reason }));
  if (confirm.includes('outside-hours')) {
    throw new InvalidInputError(errors, false, { confirm, visitIds });
  }
  const said = errors.map(({ reason }) => reason).join(' ');
  throw new ConflictError(`${said} If it is meant so, send it with \`confirmed\`.`, {
    confirm,
    visitIds,
    errors,
  });
}

function checkTimes({ fromTime, untilTime }: TimedVisit): FieldError[] {
  if ((fromTime === null) !== (untilTime === null)) {
    const field = fromTime === null ? '/fromTime' : '/untilTime';
    return [{ field, reason: 'is missing: a visit has both or neither' }];
  }
  if (fromTime === null || untilTime === null || fromTime < untilTime) return [];
  return [{ field: '/untilTime', reason: `is not after ${fromTime}` }];
}
