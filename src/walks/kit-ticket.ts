import { DEFAULT_ERROR_RATES } from '../locator/index.js';
import { wordsIn } from '../words/index.js';
import type { KitDto, KitSiteDto } from './kit.dto.js';
import { workOut } from '../locating/locate-ticket.js';
import { readFacts, type TicketQuestion } from '../locating/ticket-facts.js';
import { cautionsFor } from './walk-ticket.js';

export interface KitQuestion {
  ticket: TicketQuestion;
  number: number;
  site: KitSiteDto;
}

/** What a page needs to go on by itself, in JSON, see `KitDto`. Throws what the locator throws. */
export function kitOf({ ticket, number, site }: KitQuestion): string {
  const { drawing, posed, expected, lookedAt, evidence, exposure } = workOut(readFacts(ticket));
  const kit: Record<keyof KitDto, unknown> = {
    ticketId: ticket.ticket.id,
    number,
    asBuiltVersion: ticket.ticket.asBuiltVersion,
    drawing,
    request: posed,
    expectedFaults: expected,
    errorRates: DEFAULT_ERROR_RATES,
    sittings: evidence.inSittings && { ...evidence.inSittings, exposureDays: exposure.days },
    lookedAt,
    site,
    cautions: cautionsFor(site, wordsIn(ticket.language)),
  };
  return JSON.stringify(kit);
}
