import { cautionsFor } from './walk-cautions.js';
import { InvalidInputError } from '../shared/domain-error.js';
import type { AsBuilt } from '../sites/as-built.js';
import { nameNodesOf } from '../sites/drawing.js';
import { wordsIn } from '../words/index.js';
import type { WorkTimes } from '../work-times/work-times.js';
import { stepsSeen } from '../locating/steps-seen.js';
import { drawingFirst, sayDrawingDoubt } from '../locating/say-answer.js';
import { workOut } from '../locating/locate-ticket.js';
import { planTicketWalk } from './plan-ticket-walk.js';
import { readFacts, type TicketQuestion } from '../locating/ticket-facts.js';
import type { WalkDto, WalkQueryDto } from './walk.dto.js';
import type { Standing } from './walk-place.js';

export interface WalkQuestion {
  ticket: TicketQuestion;
  asked: WalkQueryDto;
  site: { servesEmergencyCalls: boolean; safetyNotes: string | null };
  times: WorkTimes;
}

/** What a technician on site does next about a ticket, in JSON. Throws what the locator throws, and {@link InvalidInputError}. */
export function walkTicket({ ticket, asked, site, times }: WalkQuestion): string {
  const facts = readFacts(ticket);
  const { drawing, posed, errors, expected, readingsUsed, whileItFails, result } = workOut(facts);
  const from = standing(drawing, asked);
  const words = wordsIn(ticket.language);
  const seen = stepsSeen(facts.entries);
  const planned = planTicketWalk({
    drawing,
    request: posed,
    whileItFails,
    errors,
    expected,
    from,
    words,
    times,
    seen,
  });
  const { leftOut, printed, ...answer } = planned;
  const fromWords =
    from.node === null ? words.headEnd : nameNodesOf(drawing, words)(from.trunk, from.node);
  const minutes = Math.round(answer.expectedMinutes);
  const doubts = result.drawing.alternatives.map((one) =>
    sayDrawingDoubt(one, drawing, words, seen),
  );
  const lookFirst = drawingFirst(doubts, drawing, words);
  const walk: WalkDto = {
    ticketId: ticket.ticket.id,
    from: { ...from, words: fromWords },
    ...answer,
    notPlannedWith: leftOut,
    readingsUsed,
    drawingFirst: lookFirst,
    printed: [
      words.walk.from(fromWords, minutes),
      ...(lookFirst === null ? [] : [lookFirst]),
      ...printed,
    ],
    cautions: cautionsFor(site, words),
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
