import type { Place } from '../drawing/drawn-node.js';
import type { LocateResult } from '../locator/index.js';
import type { EventShare } from '../statistics/split-finding.js';
import type { Ticket } from './ticket.entity.js';

/** Where a ticket's trouble was thought to lie at some time. */
export interface Thought {
  predicted: readonly PlaceThought[];
  /** By place, the chance of each mode of its components. */
  places: LocateResult['places'];
}

/** A place with the chance that what is the matter is there. */
export interface PlaceThought {
  place: Place;
  probability: number;
}

/**
 * Keeps where a ticket's trouble was thought to lie, before what happens next shows it. Tickets know no locator: the
 * feature that does gives this to the module.
 */
export abstract class PredictionKeeper {
  /** Before the change and outside of its transaction; null where nothing can be said. */
  abstract think(ticketId: string): Promise<Thought | null>;

  /** Keeps what was thought when somebody is sent. */
  abstract keep(ticket: Ticket, occasion: string, thought: Thought | null): Promise<void>;

  /** Keeps what was thought before a finding is written down; gives the finding as events for the rates. */
  abstract keepForFinding(
    ticket: Ticket,
    place: Place,
    found: { component?: string | null; mode?: string | null },
    thought: Thought | null,
  ): Promise<EventShare[]>;
}
