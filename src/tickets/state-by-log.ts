import type { EntryDetails, EntryKind } from './ticket-log.js';
import type { TicketState } from './ticket-lifecycle.js';

/** An entry of a ticket's log as far as it says what became of the ticket. */
export interface StatingEntry {
  kind: EntryKind;
  details: EntryDetails;
}

export interface StateByLog {
  state: TicketState;
  followUpDueOn: string | null;
}

/** The kinds of entries that a ticket's state comes from. */
export const STATING_KINDS = ['move', 'mending'] as const satisfies EntryKind[];

/** What a log leads to, oldest entry first: the state that was said last, and when somebody must come back to what is bridged. */
export function stateByLog(entries: readonly StatingEntry[]): StateByLog {
  let state: TicketState = 'reported';
  let followUpDueOn: string | null = null;
  for (const { kind, details } of entries) {
    if (kind === 'move') state = (details.to ?? state) as TicketState;
    if (kind !== 'mending') continue;
    state = details.mending === 'temporary' ? 'bridged' : 'mended';
    followUpDueOn = details.followUpDueOn ?? null;
  }
  return { state, followUpDueOn };
}
