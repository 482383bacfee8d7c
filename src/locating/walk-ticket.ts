import { InvalidInputError } from '../shared/domain-error.js';
import type { AsBuilt } from '../sites/as-built.js';
import { nameNodesOf } from '../sites/drawing.js';
import { cautionsFor } from './cautions.js';
import { workOut } from './locate-ticket.js';
import { planTicketWalk } from './plan-ticket-walk.js';
import { readFacts, type TicketQuestion } from './ticket-facts.js';
import type { WalkDto, WalkQueryDto } from './walk.dto.js';
import type { Standing } from './walk-place.js';

export interface WalkQuestion {
  ticket: TicketQuestion;
  asked: WalkQueryDto;
  site: { servesEmergencyCalls: boolean; safetyNotes: string | null };
}

/** What a technician on site does next about a ticket, in JSON. Throws what the locator throws, and {@link InvalidInputError}. */
export function walkTicket({ ticket, asked, site }: WalkQuestion): string {
  const { drawing, posed, expected, readingsUsed } = workOut(readFacts(ticket));
  const from = standing(drawing, asked);
  const planned = planTicketWalk({ drawing, request: posed, expected, from });
  const { leftOut, printed, ...answer } = planned;
  const fromWords =
    from.node === null ? 'the head-end' : nameNodesOf(drawing)(from.trunk, from.node);
  const minutes = Math.round(answer.expectedMinutes);
  const walk: WalkDto = {
    ticketId: ticket.ticket.id,
    from: { ...from, words: fromWords },
    ...answer,
    notPlannedWith: leftOut,
    readingsUsed,
    printed: [`From ${fromWords}, about ${minutes} min until all works again.`, ...printed],
    cautions: cautionsFor(site),
  };
  return JSON.stringify(walk);
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
