import { Injectable } from '@nestjs/common';
import { FirmTransaction } from '../database/firm-transaction.js';
import { InvalidInputError } from '../shared/domain-error.js';
import type { AsBuilt } from '../sites/as-built.js';
import { SitesService } from '../sites/sites.service.js';
import { cautionsFor } from './cautions.js';
import { nameNodesOf } from '../sites/drawing.js';
import { LocationService } from './location.service.js';
import { TicketService } from '../tickets/ticket.service.js';
import type { WalkDto, WalkQueryDto } from './walk.dto.js';
import type { Standing } from './walk-place.js';
import { WalkThreadService } from './walk-thread.service.js';

/** Plans what a technician on site does next about a ticket. */
@Injectable()
export class WalkService {
  constructor(
    private readonly reader: TicketService,
    private readonly location: LocationService,
    private readonly sites: SitesService,
    private readonly thread: WalkThreadService,
    private readonly transaction: FirmTransaction,
  ) {}

  async plan(ticketId: string, query: WalkQueryDto): Promise<WalkDto> {
    const ticket = await this.reader.find(ticketId);
    const { drawing, posed, expected, readingsUsed } = await this.location.workOut(ticket);
    const from = standing(drawing, query);
    const site = await this.sites.get(ticket.siteId);
    await this.transaction.pause();
    const { leftOut, printed, ...answer } = await this.thread.plan({
      drawing,
      request: posed,
      expected,
      from,
    });
    const fromWords =
      from.node === null ? 'the head-end' : nameNodesOf(drawing)(from.trunk, from.node);
    const minutes = Math.round(answer.expectedMinutes);
    return {
      ticketId,
      from: { ...from, words: fromWords },
      ...answer,
      notPlannedWith: leftOut,
      readingsUsed,
      printed: [`From ${fromWords}, about ${minutes} min until all works again.`, ...printed],
      cautions: cautionsFor(site),
    };
  }
}

/** Where the technician stands: the head-end, where nothing is said. */
function standing({ trunks }: AsBuilt, { from, trunk }: WalkQueryDto): Standing {
  const wrong = (field: string, reason: string) => new InvalidInputError([{ field, reason }]);
  const asked = trunks.filter((one) => trunk === undefined || one.trunk === trunk);
  if (asked.length === 0 && trunk !== undefined)
    throw wrong('trunk', `there is no trunk ${trunk} at this site`);
  if (from === undefined) return { trunk: '', node: null };
  const found = asked.filter(({ nodes }) => nodes.some(({ node }) => node === from));
  const [first] = found;
  if (first === undefined) throw wrong('from', `there is no ${from} on the drawing`);
  if (found.length > 1) throw wrong('trunk', `is needed: ${from} is on several trunks`);
  return { trunk: first.trunk, node: from };
}
