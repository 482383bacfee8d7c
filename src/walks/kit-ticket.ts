import type { WorkTimes } from '../work-times/work-times.js';
import { wordsIn } from '../words/index.js';
import type { KitDto, KitNoteDto, KitSiteDto } from './kit.dto.js';
import { workOut } from '../locating/locate-ticket.js';
import { readFacts, type TicketQuestion } from '../locating/ticket-facts.js';
import { cautionsFor } from './walk-cautions.js';

export interface KitQuestion {
  ticket: TicketQuestion;
  number: number;
  site: KitSiteDto;
  notes: KitNoteDto[];
  entryIds: string[];
  times: WorkTimes;
}

/** What a page needs to go on by itself, in JSON, see `KitDto`. Throws what the locator throws. */
export function kitOf({ ticket, times, ...besides }: KitQuestion): string {
  const facts = readFacts(ticket);
  const located = workOut(facts);
  const { drawing, posed, errors, expected, lookedAt, evidence, exposure } = located;
  const { heard, entries, readings, looks, headEndNow } = facts;
  const kit: Record<keyof KitDto, unknown> = {
    ticketId: ticket.ticket.id,
    asBuiltVersion: ticket.ticket.asBuiltVersion,
    drawing,
    request: posed,
    expectedFaults: expected,
    errorRates: errors,
    sittings: evidence.inSittings && {
      ...evidence.inSittings,
      ...(posed.falseAlarmRatio !== undefined && { falseAlarmRatio: posed.falseAlarmRatio }),
      exposureDays: exposure.days,
    },
    lookedAt,
    evidence: { ticket: facts.ticket, heard, entries, readings, looks, headEndNow },
    exposureDays: exposure.days,
    workTimes: times,
    ...besides,
    cautions: cautionsFor(besides.site, wordsIn(ticket.language)),
  };
  return JSON.stringify(kit);
}
