import type { AsBuilt } from '../sites/as-built.js';
import { beginningOf } from './locate-ticket.js';
import { type LocatedTicket, readEntries, readHeard, type TicketTexts } from './ticket-facts.js';

/** So many tickets are remembered. */
const MOST = 1_000;

interface ToldOf {
  ticket: LocatedTicket;
  drawing: AsBuilt;
  texts: Pick<TicketTexts, 'heard' | 'entries'>;
}

/**
 * When what is to be explained of tickets began. It takes all that was said to tell, and is found on the thread of the requests: once for
 * what was said, however many ask.
 */
export class Beginnings {
  /** Oldest first. */
  private readonly known = new Map<string, Date>();

  /** `digest` is of all the rest. */
  of(digest: string, { ticket, drawing, texts }: ToldOf): Date {
    const known = this.known.get(digest);
    if (known !== undefined) return known;
    const told = { heard: readHeard(texts), entries: readEntries(texts) };
    const beginning = beginningOf(ticket, drawing, told);
    this.known.set(digest, beginning);
    const [oldest] = this.known.keys();
    if (this.known.size > MOST && oldest !== undefined) this.known.delete(oldest);
    return beginning;
  }
}
