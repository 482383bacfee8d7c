import { Injectable } from '@nestjs/common';
import { type FieldError, InvalidInputError, NotFoundError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import { ClosedCalendarRepository } from './closed-calendar.repository.js';
import type { Coverage, VisitHours } from './contract-kinds.js';

interface Referring {
  clientId: string;
  siteIds: string[];
  coverage: Coverage;
  visitHours: VisitHours;
}

/** Checks what a contract names: sites of its client, and calendars. */
@Injectable()
export class ContractReferenceService {
  constructor(
    private readonly sites: SitesService,
    private readonly calendars: ClosedCalendarRepository,
  ) {}

  async check({ clientId, siteIds, coverage, visitHours }: Referring): Promise<void> {
    const errors = [
      ...(await this.checkSites(clientId, siteIds)),
      ...(await this.checkCalendars('/coverage/calendarIds', coverage.calendarIds)),
      ...(await this.checkCalendars('/visitHours/avoidCalendarIds', visitHours.avoidCalendarIds)),
    ];
    if (errors.length > 0) throw new InvalidInputError(errors);
  }

  private async checkSites(clientId: string, siteIds: string[]): Promise<FieldError[]> {
    const errors: FieldError[] = [];
    for (const [index, siteId] of siteIds.entries()) {
      const field = `/siteIds/${index}`;
      try {
        const site = await this.sites.get(siteId);
        if (site.clientId !== clientId)
          errors.push({ field, reason: 'is a site of another client' });
      } catch (error) {
        if (!(error instanceof NotFoundError)) throw error;
        errors.push({ field, reason: error.message });
      }
    }
    if (errors.length < siteIds.length) return errors;
    return [{ field: '/clientId', reason: 'has none of these sites' }, ...errors];
  }

  private async checkCalendars(field: string, ids: string[]): Promise<FieldError[]> {
    const found = new Set((await this.calendars.listKept(ids)).map(({ id }) => id));
    return ids.flatMap((id, index) =>
      found.has(id) ? [] : [{ field: `${field}/${index}`, reason: `there is no calendar ${id}` }],
    );
  }
}
