import type { Place } from '../drawing/drawn-node.js';
import type { EventShare } from '../statistics/split-finding.js';
import type { Ticket } from './ticket.entity.js';

/**
 * Keeps where a ticket's trouble was thought to lie, before what happens next shows it. Tickets know no locator: the
 * feature that does gives this to the module.
 */
export abstract class PredictionKeeper {
  /** Keeps what is thought now, when somebody is sent. */
  abstract keep(ticket: Ticket, occasion: string): Promise<void>;

  /** Keeps what is thought before a finding is written down; gives the finding as events for the rates. */
  abstract keepForFinding(
    ticket: Ticket,
    place: Place,
    found: { component?: string | null; mode?: string | null },
  ): Promise<EventShare[]>;
}
