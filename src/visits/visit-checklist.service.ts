import { Injectable } from '@nestjs/common';
import { ProvenPointService } from '../history/proven-point.service.js';
import { ConflictError } from '../shared/domain-error.js';
import { SitesService } from '../sites/sites.service.js';
import type { VisitChecklistDto } from './visit-checklist.dto.js';
import { walkTestChecklist } from './walk-test-checklist.js';

/** What of a site a visit has yet to hear. */
@Injectable()
export class VisitChecklistService {
  constructor(
    private readonly sites: SitesService,
    private readonly proven: ProvenPointService,
  ) {}

  async checklist({ id, siteId }: { id: string; siteId: string }): Promise<VisitChecklistDto> {
    const drawing = await this.sites.drawing(siteId);
    const stations = drawing.trunks.flatMap(({ trunk, nodes }) =>
      nodes.flatMap(({ kind, node }) => (kind === 'station' ? { trunk, node } : [])),
    );
    const rooms = walkTestChecklist(drawing, await this.proven.lastHeardOn(id, stations));
    const functions = rooms.flatMap((room) => room.functions);
    const ticked = functions.filter(({ testedAt }) => testedAt !== null).length;
    return {
      visitId: id,
      toHear: functions.length,
      heard: ticked,
      missing: functions.length - ticked,
      rooms,
    };
  }

  /** Whoever ends a visit for upkeep on which rooms of the site were not heard, some or all, is asked whether that is meant so. */
  async askWhatIsMissing(visit: { id: string; siteId: string; upkeep: boolean }): Promise<void> {
    if (!visit.upkeep) return;
    const { heard, missing, rooms } = await this.checklist(visit);
    if (missing === 0) return;
    const left = rooms.flatMap(({ trunk, node, functions }) =>
      functions.flatMap((one) =>
        one.testedAt === null ? { trunk, node, function: one.function } : [],
      ),
    );
    const what =
      heard === 0
        ? 'No room was heard on this visit'
        : `The walk test is not whole: ${missing} of ${heard + missing} were not heard`;
    throw new ConflictError(`${what}. If it is meant so, send it with \`confirmed\`.`, {
      confirm: ['not-all-heard'],
      missing: left.slice(0, MOST_TOLD),
    });
  }
}

const MOST_TOLD = 100;
